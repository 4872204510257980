import { nameIn } from './names-in-text';
import { recordNumberIn } from './numbers-in-text';

/** A bit of a text, and what it looks like. */
export type LooksLike = { bit: string; looksLike: string };

/** `note`: sentences of the surgeon's own. `label`: a short name, where a day or a span of years is what one expects. */
export type TextKind = 'note' | 'label';

/**
 * What in a text looks like a person or could point to one: a question to the writer, who alone can tell. Each kind at
 * most once.
 * @param none bits that the writer has said to be none, as they were shown
 */
export function personIn(text: string, kind: TextKind = 'note', none: readonly string[] = []): LooksLike[] {
  const asked = without(text, none);
  return KINDS.flatMap(({ looksLike, find, notesOnly }) => {
    const bit = notesOnly && kind === 'label' ? null : find(asked);
    return bit === null ? [] : [{ bit, looksLike }];
  });
}

/** Taken out before looking, longest first: what stands beside it is still looked at. */
const without = (text: string, none: readonly string[]): string =>
  [...none].sort((one, other) => other.length - one.length).reduce((left, bit) => left.replaceAll(bit, ' · '), text);

const MONTH =
  '(?:jan(?:uary)?|feb(?:ruary)?|mar(?:ch)?|apr(?:il)?|may|june?|july?|aug(?:ust)?|sep(?:t(?:ember)?)?|oct(?:ober)?|nov(?:ember)?|dec(?:ember)?)';

const anyOf =
  (...patterns: RegExp[]) =>
  (text: string): string | null => {
    for (const pattern of patterns) {
      const match = pattern.exec(text);
      if (match) return match[0].trim();
    }
    return null;
  };

const KINDS: readonly { looksLike: string; find: (text: string) => string | null; notesOnly?: true }[] = [
  {
    looksLike: 'a date',
    notesOnly: true,
    find: anyOf(
      /\b\d{4}-\d{2}-\d{2}\b/,
      /\b\d{1,2}[./]\d{1,2}[./]\d{2,4}\b/,
      new RegExp(String.raw`\b\d{1,2}(?:st|nd|rd|th)?\s+(?:of\s+)?${MONTH}\b`, 'i'),
      new RegExp(String.raw`\b${MONTH}\s+\d{1,2}(?:st|nd|rd|th)?\b(?!\s*(?:cases|lists|eyes))`, 'i'),
    ),
  },
  {
    looksLike: 'an age',
    find: anyOf(/\b\d{2,3}[\s-]*(?:years?|yrs?)[\s-]*old\b/i, /\baged?\s+\d{2,3}\b/i, /\b\d{2,3}\s?y\/?o\b/i),
  },
  { looksLike: 'a name', find: nameIn },
  { looksLike: 'a number that could be a patient’s', find: recordNumberIn },
  // No second @: "a@a@a…" would be searched from every sign of it to the end.
  { looksLike: 'an address', find: anyOf(/[\w.+-]{1,64}@[\w-]{1,100}\.\w+/) },
];
