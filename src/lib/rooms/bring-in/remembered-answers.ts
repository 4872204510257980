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
  /^(procedure|plain-number|three-parts|date-order|readings|waiting|order|empty-code|repeats|grades|serious)$|^(blank|column|label|place|value|hands|event|empty|otherwise|running):/;

/** What stands for somebody's name is somebody else in the next file. */
const STANDS_FOR_A_NAME = /:person \d+$/;

/** Longest memory of one shape: more is no table anybody answered by hand. */
const MOST = 200;

/** The answers of a file that was taken, as far as the next one may use them. Words that may name a person are not kept. */
export function answersToRemember(choices: Choices): Record<string, string> {
  const kept = Object.entries(choices).filter(
    ([key]) => KEPT.test(key) && !STANDS_FOR_A_NAME.test(key) && !textPointsToAPerson(key.slice(key.indexOf(':') + 1)),
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

/** Without one of them. */
export function forgottenOne(choices: Choices, key: string): Record<string, string> {
  const left = Object.entries(choices).filter(([each]) => each !== key);
  const keys = rememberedKeys(choices).filter((each) => each !== key);
  return { ...Object.fromEntries(left), [REMEMBERED]: JSON.stringify(keys) };
}

/** Without what was remembered. */
export function forgotten(choices: Choices): Record<string, string> {
  const keys = new Set([...rememberedKeys(choices), REMEMBERED]);
  return Object.fromEntries(Object.entries(choices).filter(([key]) => !keys.has(key)));
}

/** A remembered answer in words, to be forgotten by itself. */
export type Remembered = { key: string; words: string };

/** Those of the remembered answers that this file has a use for, so that the number shown can be counted on the page. */
export function rememberedHere(choices: Choices, { questions, mapping }: AuditReading): Remembered[] {
  const here = new Map<string, string>();
  for (const { id, question, options, answer } of questions)
    here.set(id, `${question} ${options.find(({ value }) => value === answer)?.label ?? answer}`);
  for (const { key, from, to } of mapping) here.set(key, `${from}: ${to}`);
  return rememberedKeys(choices).flatMap((key) => {
    const words = here.get(key);
    return words === undefined ? [] : [{ key, words }];
  });
}
