import { textPointsToAPerson, type AuditReading } from '../../intake';

type Choices = Readonly<Record<string, string>>;

/** Where a held file keeps the shape of its headings, and which of its answers came from the last file of that shape. */
export const SHAPE = 'shape';
export const REMEMBERED = 'remembered';

/**
 * What is remembered for the next file with the same headings: how it is read. Whose times they are, whether somebody
 * agreed, what an empty cell under the events means and which codes are given is asked of every file anew.
 */
const KEPT =
  /^(procedure|plain-number|three-parts|date-order|readings|waiting|order|empty-code|repeats|grades|serious)$|^(blank|column|label|place|value|event|empty|otherwise|running):/;

/** Longest memory of one shape: more is no table anybody answered by hand. */
const MOST = 200;

/** The answers of a file that was taken, as far as the next one may use them. Words that may name a person are not kept. */
export function answersToRemember(choices: Choices): Record<string, string> {
  const kept = Object.entries(choices).filter(
    ([key]) => KEPT.test(key) && !textPointsToAPerson(key.slice(key.indexOf(':') + 1)),
  );
  return Object.fromEntries(kept.slice(0, MOST));
}

/** The answers of the last file of this shape as those of a new one. */
export const withRemembered = (choices: Choices, last: Choices): Record<string, string> => ({
  ...last,
  ...choices,
  [REMEMBERED]: JSON.stringify(Object.keys(last)),
});

/** The keys of the answers that came from the last file; none where they were forgotten. */
export function rememberedKeys(choices: Choices): string[] {
  try {
    const keys: unknown = JSON.parse(choices[REMEMBERED] ?? '[]');
    return Array.isArray(keys) ? keys.filter((key) => typeof key === 'string') : [];
  } catch {
    return [];
  }
}

/** Without what was remembered. */
export function forgotten(choices: Choices): Record<string, string> {
  const keys = new Set([...rememberedKeys(choices), REMEMBERED]);
  return Object.fromEntries(Object.entries(choices).filter(([key]) => !keys.has(key)));
}

/** Those of the remembered answers that this file has a use for, so that the number shown can be counted on the page. */
export function rememberedHere(choices: Choices, { questions, mapping }: AuditReading): string[] {
  const keys = new Set(rememberedKeys(choices));
  const here = new Set([...questions.map(({ id }) => id), ...mapping.map(({ key }) => key)]);
  return [...keys].filter((key) => here.has(key));
}
