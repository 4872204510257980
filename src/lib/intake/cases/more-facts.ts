import type { EyeFact, Procedure } from '../../model';
import { yesNo } from '../table/yes-no';

/** A fact asked together with others under "anything else", by one letter. */
export type MoreFact = { factId: string; label: string; key: string };

export function moreFacts({ facts }: Pick<Procedure, 'facts'>): MoreFact[] {
  return facts
    .filter(({ asked }) => asked === 'more')
    .map(({ id, label, key }, index) => ({ factId: id, label, key: key ?? firstLetter(label, index) }));
}

const firstLetter = (label: EyeFact['label'], index: number) => label.charAt(0).toUpperCase() || String(index + 1);

export type Letters =
  | { letters: string }
  /** Nothing was written: not entered, which is not "none". */
  | { letters: null }
  | { problem: string };

/** "FS": these two are there and the others are not; "0": none of them. Letters come back in the order of the facts. */
export function readLetters(text: string, more: readonly MoreFact[]): Letters {
  const written = text.toUpperCase().replace(/[\s,;+/]/g, '');
  if (written === '') return { letters: null };
  const unknown = [...written].filter((letter) => letter !== '0' && !more.some(({ key }) => key === letter));
  // A letter of the list is that letter, whatever else it may stand for ("N").
  if (unknown.length > 0 && yesNo(text) === null) return { letters: null };
  if (written === '0' || (unknown.length > 0 && yesNo(text) === false)) return { letters: '0' };
  if (unknown.length > 0) return { problem: `"${unknown.join('')}" is not a letter of the list. 0 means none.` };
  if (written.includes('0')) return { problem: '0 means none, so it stands alone.' };
  return { letters: more.flatMap(({ key }) => (written.includes(key) ? [key] : [])).join('') };
}

/** Every one of these facts, answered by the letters. */
export const factsOfLetters = (letters: string, more: readonly MoreFact[]): Record<string, boolean> =>
  Object.fromEntries(more.map(({ factId, key }) => [factId, letters.includes(key)]));
