import type { Fields } from './fields';

const OURS = ['seen', 'nobody'];
const said = (texts: readonly string[] | undefined): string => {
  const text = (texts ?? [])
    .map((each) => each.trim())
    .filter(Boolean)
    .join(', ');
  return text === '' ? 'nothing' : `"${text}"`;
};

/** What is stored where something else was typed, with both. @param stored the form as it would be filled in now */
export function storedBeside(stored: Fields, sent: Fields): string {
  const differs = Object.keys({ ...stored, ...sent }).filter(
    (name) => !OURS.includes(name) && said(stored[name]) !== said(sent[name]),
  );
  const both = differs.map((name) => `${said(stored[name])}, where you typed ${said(sent[name])}`);
  return both.join('; ') || 'the same as what you typed';
}
