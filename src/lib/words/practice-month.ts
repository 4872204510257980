import { counted } from '../format';

/** How often a drill was logged: a count, and no word on whether that is much. */
export const loggedWords = (times: number): string =>
  times === 0 ? 'Not logged yet.' : `Logged ${timesWords(times)}.`;

const timesWords = (times: number): string => (times === 1 ? 'once' : times === 2 ? 'twice' : `${times} times`);

/** One protected part in the cases counted so far; what was not answered is said, because it is not the same as seen. */
export function partSeenWords(label: string, seen: number, looked: number, cases: number): string {
  if (looked === 0) return `${label}: not answered in any of these ${counted(cases, 'case')}.`;
  const rest = cases - looked;
  return `${label}: seen in ${seen} of ${looked === cases ? counted(cases, 'case') : `the ${counted(looked, 'case')} answered`}${
    rest > 0 ? `; not answered in ${rest}` : ''
  }.`;
}
