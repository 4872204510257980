import type { CompareWish } from '../lib/assess';
import { whole, type FileProblem } from './problem';
import type { Reading } from './read-file';

/**
 * `--compare A..B C..D` takes two words, which the parser of options cannot: it is taken out before.
 * @throws Error with a plain sentence where it is not two pairs of codes
 */
export function takeCompare(args: readonly string[]): { compare: CompareWish | null; rest: string[] } {
  const rest = args.filter((arg) => arg !== '--fixed');
  const fixed = rest.length < args.length;
  const at = rest.indexOf('--compare');
  if (at < 0) {
    if (fixed) throw new Error('--fixed goes with --compare.');
    return { compare: null, rest };
  }
  const [earlier, later] = rest.splice(at, 3).slice(1).map(pairOf);
  if (!earlier || !later)
    throw new Error('--compare takes two stretches by the first and last case of each: A..B C..D');
  return { compare: { earlier, later, fixed }, rest };
}

function pairOf(text: string): [string, string] | null {
  const [from = '', to = '', ...more] = text.split('..');
  return from !== '' && to !== '' && more.length === 0 ? [from, to] : null;
}

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
