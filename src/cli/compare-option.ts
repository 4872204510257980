import type { CompareWish } from '../lib/assess';

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
