import { essential, plainWords, squeezed } from './plain-words';
import { lettersOf, slipsAtLeast, slipsBetween, slipsForgiven } from './slips';

/** A thing and all the names it goes by. */
export type Named<T> = { value: T; names: readonly string[] };

/**
 * `exact` and `loose` carry more than one value when one name belongs to several things on purpose
 * ("viscoelastic"): its place decides. `unclear`: several names fit equally well, so it is asked.
 */
export type Match<T> =
  { how: 'exact' | 'loose' | 'unclear'; values: readonly T[] } | { how: 'none'; values: readonly [] };

const NONE = { how: 'none', values: [] } as const;

type Found<T> = { name: string; letters: number; values: Set<T> };

/** All names of some things, ready to be looked up. Holds nothing but what it was made of. */
export type NameIndex<T> = {
  byWords: ReadonlyMap<string, Set<T>>;
  bySqueezed: ReadonlyMap<string, Found<T>>;
  /** Squeezed names by their length: only those of nearly the same length can be a slip away. */
  byLength: ReadonlyMap<number, readonly Found<T>[]>;
  byOrder: ReadonlyMap<string, Set<T>>;
  longestFirst: readonly Found<T>[];
};

export function nameIndex<T>(entries: readonly Named<T>[]): NameIndex<T> {
  const byWords = new Map<string, Set<T>>();
  const bySqueezed = new Map<string, Found<T>>();
  const byOrder = new Map<string, Set<T>>();
  for (const { value, names } of entries)
    for (const name of names) {
      const words = plainWords(name);
      if (words === '') continue;
      add(byWords, words, value);
      add(byOrder, inOrder(words), value);
      const short = squeezed(words);
      const found = bySqueezed.get(short) ?? { name: short, letters: lettersOf(short), values: new Set<T>() };
      found.values.add(value);
      bySqueezed.set(short, found);
    }
  const longestFirst = [...byWords].map(([name, values]) => ({ name, letters: lettersOf(name), values }));
  longestFirst.sort((a, b) => b.name.length - a.name.length);
  const byLength = new Map<number, Found<T>[]>();
  for (const found of bySqueezed.values()) {
    const sameLength = byLength.get(found.name.length);
    if (sameLength) sameLength.push(found);
    else byLength.set(found.name.length, [found]);
  }
  return { byWords, bySqueezed, byLength, byOrder, longestFirst };
}

/** What a name stands for exactly as written (but for case, accents and signs): cheap, for a first look. */
export const exactly = <T>(text: string, index: NameIndex<T>): readonly T[] => [
  ...(index.byWords.get(plainWords(text)) ?? []),
];

/**
 * Finds what a name stands for: as written, without spaces, with its words in another order, with small slips, or
 * inside a longer name. Each text is worked out once for one matcher; a matcher lives no longer than one reading.
 *
 * @param within `false`: a name inside a longer text does not count (short, common words).
 */
export function nameMatcher<T>(
  names: NameIndex<T> | readonly Named<T>[],
  { within = true } = {},
): (text: string) => Match<T> {
  const index = 'byWords' in names ? names : nameIndex(names);
  const known = new Map<string, Match<T>>();
  return (text) => {
    let match = known.get(text);
    if (!match) {
      match = lookUp(text, index, within);
      known.set(text, match);
    }
    return match;
  };
}

function lookUp<T>(text: string, index: NameIndex<T>, within: boolean): Match<T> {
  const words = plainWords(text);
  if (words === '') return NONE;
  const written = index.byWords.get(words);
  if (written) return { how: 'exact', values: [...written] };
  const plain = essential(words);
  const close =
    index.byWords.get(plain) ?? index.bySqueezed.get(squeezed(plain))?.values ?? index.byOrder.get(inOrder(plain));
  if (close) return { how: 'loose', values: [...close] };
  const slipped = bySlips(squeezed(plain), index.byLength);
  return slipped.how !== 'none' || !within ? slipped : byPart(plain, index.longestFirst);
}

const inOrder = (words: string): string => words.split(' ').sort().join(' ');

function add<T>(map: Map<string, Set<T>>, key: string, value: T): void {
  const values = map.get(key);
  if (values) values.add(value);
  else map.set(key, new Set([value]));
}

/** One set of values for all the names found, or it is unclear which was meant. */
function agreed<T>(found: readonly Found<T>[]): Match<T> {
  const [first] = found;
  if (!first) return NONE;
  const same = found.every(
    ({ values }) => values.size === first.values.size && [...values].every((value) => first.values.has(value)),
  );
  const all = new Set(found.flatMap(({ values }) => [...values]));
  return { how: same ? 'loose' : 'unclear', values: [...all] };
}

function bySlips<T>(text: string, byLength: NameIndex<T>['byLength']): Match<T> {
  let best = slipsForgiven(text.length);
  let found: Found<T>[] = [];
  const most = best;
  const letters = lettersOf(text);
  for (let length = text.length - most; length <= text.length + most; length += 1)
    for (const candidate of byLength.get(length) ?? []) {
      const limit = Math.min(best, slipsForgiven(length));
      if (limit === 0 || slipsAtLeast(letters, candidate.letters) > limit) continue;
      const slips = slipsBetween(text, candidate.name, limit);
      if (slips > limit) continue;
      if (slips < best) found = [];
      best = slips;
      found.push(candidate);
    }
  return agreed(found);
}

/** Names that stand as whole words inside the text; a name inside a longer one found ("visco" in "visco removal") is passed over. */
function byPart<T>(text: string, longestFirst: readonly Found<T>[]): Match<T> {
  let left = ` ${text} `;
  const found: Found<T>[] = [];
  for (const candidate of longestFirst) {
    if (candidate.name.length < 3 || !left.includes(` ${candidate.name} `)) continue;
    found.push(candidate);
    left = left.replaceAll(` ${candidate.name} `, ' | ');
  }
  return agreed(found);
}
