import { cannot, type Cannot } from './cannot';

/**
 * What a caller gave as a number but is not one (NaN, infinite), as the reason why nothing can be said.
 *
 * @param given numbers, or rows of them, by the name the reason uses; `null` and `undefined` are "not given"
 * @returns the first that is not a number; `null` where there is none
 */
export function notANumber(
  given: Readonly<Record<string, number | readonly number[] | null | undefined>>,
): Cannot | null {
  for (const [name, value] of Object.entries(given))
    if ([value ?? []].flat().some((each) => !Number.isFinite(each)))
      return cannot('not-a-number', `The ${name} given is not a number, so nothing can be said.`);
  return null;
}

type Records = {
  cases: readonly { code: string }[];
  lists?: readonly unknown[];
  references?: readonly unknown[];
};

/** The same of a record: the first case, list or reference set that holds something that is not a number. */
export function recordNotANumber({ cases, lists = [], references = [] }: Records): Cannot | null {
  const wrong = cases.find(isBroken);
  if (wrong) return broken(`In case ${wrong.code}`);
  if (lists.some(isBroken)) return broken('In a list');
  return references.some(isBroken) ? broken('In a reference set') : null;
}

const broken = (where: string) =>
  cannot('not-a-number', `${where} something given as a number is not one, so nothing can be said.`);

function isBroken(value: unknown): boolean {
  if (typeof value === 'number') return !Number.isFinite(value);
  if (typeof value !== 'object' || value === null) return false;
  for (const key in value) if (isBroken((value as Record<string, unknown>)[key])) return true;
  return false;
}
