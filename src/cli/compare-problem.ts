import type { CompareWish } from '../lib/assess';
import { whole, type FileProblem } from './problem';
import type { Reading } from './read-file';

/** What is wrong with the stretches in this file, with what there is; `null`: nothing. */
export function compareProblem(
  { cases, procedureId }: Pick<Reading, 'cases' | 'procedureId'>,
  compare: CompareWish | null,
): FileProblem | null {
  if (!compare || cases.length === 0) return null;
  const own = cases.filter((one) => one.procedureId === procedureId).sort((a, b) => a.sequence - b.sequence);
  const wrong = (value: string, why: string) => whole('--compare', value, why);
  const places = new Map(own.map(({ code }, place) => [code, place]));
  const there = `There are ${own.length}, from ${own[0]?.code} to ${own.at(-1)?.code}.`;
  for (const code of [...compare.earlier, ...compare.later])
    if (!places.has(code)) return wrong(code, `No case of this file has this code. ${there}`);
  if (!own.every(({ orderKnown }) => orderKnown))
    return wrong(compare.earlier.join('..'), 'The order of the cases in time is not known.');
  for (const [from, to] of [compare.earlier, compare.later])
    if ((places.get(from) ?? 0) > (places.get(to) ?? 0))
      return wrong(`${from}..${to}`, `${to} comes before ${from}. ${there}`);
  return null;
}
