import { clock, dayWords, LABELS, median } from './by-hand';
import type { Counts } from './by-hand';
import type { LeftTo, Recount } from './recount';

const STEP = [...LABELS.keys()].join('|');
/** The counted cases that may be seen, in two parts: the later one begins with the list nearest to the middle. */
function halves({ seen, countedOf }: Counts) {
  const all = countedOf(seen);
  let at = 0;
  for (let place = 1; place < all.length; place += 1) {
    if (all[place]!.listId === all[place - 1]!.listId) continue;
    const middle = Math.floor(all.length / 2);
    if (at === 0 || Math.abs(place - middle) < Math.abs(at - middle)) at = place;
  }
  // A single list is parted in its middle.
  const from = at === 0 ? Math.floor(all.length / 2) : at;
  return [all.slice(0, from), all.slice(from)] as const;
}
/** "from 5 January to 9 February 2026": the first and the last day of a part. */
const spans = (by: Counts) =>
  halves(by).map((half) => {
    const days = half.map(({ listId }) => dayWords(by.days[by.lists.findIndex(({ id }) => id === listId)]!));
    return `${days[0]!.replace(/ \d{4}$/, '')} to ${days.at(-1)}`;
  });
const onlyHalves = (by: Counts, id: string) => halves(by).map((half) => by.times(half, id));

export const overTime: readonly Recount[] = [
  [
    /^(\d+) counted cases are needed in each; there are (\d+) and (\d+)\.$/,
    (_, by) => [20, ...halves(by).map(({ length }) => length)],
  ],
  [
    new RegExp(`^(${STEP}) \\| ([\\d:]+) \\| ([\\d:]+) \\| (\\d+), (\\d+) \\|`),
    ([label], by) => {
      const [a, b] = onlyHalves(by, LABELS.get(label!)!);
      return [label!, clock(median(a!)), clock(median(b!)), a!.length, b!.length];
    },
  ],
  [/^All steps together \| {2}\| {2}\| (\d+), (\d+) \|/, (_, by) => halves(by).map(({ length }) => length)],
  [
    new RegExp(`^(${STEP}) \\| (.*)median ([\\d:]+), then ([\\d:]+)`),
    ([label, said], by) => [label!, said!, ...onlyHalves(by, LABELS.get(label!)!).map((each) => clock(median(each)))],
  ],
  [
    /^(\d+) cases over (\d+) lists against (\d+) cases over (\d+) lists/,
    (_, by) => [...halves(by)].reverse().flatMap((half) => [half.length, by.listsOf(half).length]),
  ],
  [/^(\d+) cases of a running window are not in it/, (_, { hidden }) => [hidden.length]],
  [/from (\d+ \w+ to \d+ \w+ \d{4})/, ([said], by) => spans(by).includes(said!)],
  [
    /^Dense \| (\d+) of (\d+) \| (\d+) of (\d+)$/,
    (_, by) =>
      halves(by).flatMap((half) => {
        const known = half.filter(({ facts }) => facts['dense'] !== undefined);
        return [known.filter(({ facts }) => facts['dense']).length, known.length];
      }),
  ],
  [
    /^Hands: the whole operation by your own \| (\d+) of (\d+) \| (\d+) of (\d+)$/,
    (_, by) =>
      halves(by).flatMap((half) => [
        half.filter(({ hands }) => hands.steps['sixth'] === undefined).length,
        half.length,
      ]),
  ],
  [/^Lists \| (\d+) \| (\d+)$/, (_, by) => halves(by).map((half) => by.listsOf(half).length)],
  [/Done in fewer than (\d+) cases of one of the two/, () => [20]],
];
export const leftOfOverTime: readonly LeftTo[] = [
  {
    pattern: /\d+ % (less|more)( \(.*?\))?|no difference( \(.*?\))|\(\d+ to \d+ % (less|more)\)/,
    why: 'the change against the rest, by regression',
    test: 'tests/unit/practice/compare-stretches.test.ts',
  },
];
