import type { GivenNumber, NotANumber } from '../model';
import { cannot, type Cannot } from './cannot';

/**
 * What a caller gave as a number but is not one (NaN, infinite), as the reason why nothing can be said.
 *
 * @param given numbers, or rows of them, by name; `null` and `undefined` are "not given"
 * @returns the first that is not a number; `null` where there is none
 */
export function notANumber(
  given: Readonly<Partial<Record<GivenNumber, number | readonly number[] | null | undefined>>>,
): Cannot<NotANumber> | null {
  for (const [name, value] of Object.entries(given))
    if ([value ?? []].flat().some((each) => !Number.isFinite(each)))
      return cannot({ code: 'not-a-number', what: 'given', given: name as GivenNumber });
  return null;
}

type Records = {
  cases: readonly { code: string }[];
  lists?: readonly unknown[];
  references?: readonly unknown[];
};

/** The same of a record: the first case, list or reference set that holds something that is not a number. */
export function recordNotANumber({ cases, lists = [], references = [] }: Records): Cannot<NotANumber> | null {
  const wrong = cases.find(isBroken);
  if (wrong) return cannot({ code: 'not-a-number', what: 'case', case: wrong.code });
  if (lists.some(isBroken)) return cannot({ code: 'not-a-number', what: 'list' });
  return references.some(isBroken) ? cannot({ code: 'not-a-number', what: 'reference-set' }) : null;
}

function isBroken(value: unknown): boolean {
  if (typeof value === 'number') return !Number.isFinite(value);
  if (typeof value !== 'object' || value === null) return false;
  for (const key in value) if (isBroken((value as Record<string, unknown>)[key])) return true;
  return false;
}
