import { dayWords } from './by-hand';
import type { Recount } from './recount';

const short = (day: string) => dayWords(day).replace(/ \d{4}$/, '');
const shorter = (day: string) => /^\d+ \w{3}/.exec(short(day))![0];
const reviewed = (left: number) =>
  left === 0 ? 'checkpoints answered' : `${left} ${left === 1 ? 'waits' : 'wait'} for review`;

export const now: readonly Recount[] = [
  [/Bring in times of at least (\d+) cases/, () => [20]],
  [
    /(\d+) cases? counts?\. A suggestion needs (\d+) from at least (\d+) lists\. (\d+) more cases and (\d+) more lists? will do/,
    (_, { shown, listsOf }) => [shown.length, 20, 4, 20 - shown.length, 4 - listsOf(shown).length],
  ],
  [/\(posterior capsule tear\), (\d+) cases ago/, (_, { casesAgo }) => [casesAgo]],
  [/^(\d+) more cases? will have to pass/, (_, { casesAgo }) => [40 - casesAgo]],
  [
    /(\d+) of 20( counted)?, over (\d+) of 4 lists/,
    ([, said], { running, listsOf }) => [running.length, said!, Math.min(4, listsOf(running).length)],
  ],
  [/(\d+) of 20: the result can be read/, (_, { windows }) => [windows[0]!.length]],
  [/^(Practised: )?(\d+) of 20( counted\.)?$/, ([a, , b], { running }) => [a!, running.length, b!]],
  [/(\d+) of the following twenty/, (_, { running }) => [running.length]],
  [/after (\d+) more cases/, (_, { running }) => [20 - running.length]],
  [/^(\d+) cases? waits? for your review/, (_, { waiting }) => [waiting.length]],
  [
    /^Planned \| (\d+ \w+), (\d+) baseline cases \| (\d+ \w{3})/,
    (_, { goal, baseline }) => {
      const day = short(goal!.setAt.slice(0, 10));
      return [day, baseline.length, shorter(goal!.setAt.slice(0, 10))];
    },
  ],
  [
    /at twenty: (\d+) cases?( and (\d+) lists?)? to come/,
    ([, said, lists], { running, listsOf }) => [
      20 - running.length,
      said!,
      lists === '' ? '' : 4 - listsOf(running).length,
    ],
  ],
  [
    /^(\d+ \w+) \| (\d+ (?:operated, \d+ counted|counted), .*) \| (\d+ \w{3})$/,
    ([title], { lists, days, windows, running, result, waiting }) => {
      const at = days.findIndex((day) => short(day) === title);
      const strokes = (result ? running : (windows[0] ?? running)).filter(({ listId }) => listId === lists[at]!.id);
      const { operated } = lists[at]!;
      const of = operated === null ? `${strokes.length} counted` : `${operated} operated, ${strokes.length} counted`;
      const left = strokes.filter((one) => waiting.includes(one)).length;
      return [title!, `${of}, ${reviewed(left)}`, shorter(days[at]!)];
    },
  ],
  [
    /^The next twenty \| (\d+) cases over (\d+) lists, read/,
    (_, { windows, listsOf }) => [windows[0]!.length, listsOf(windows[0]!).length],
  ],
  [/^At (\d+) counted cases, a look at the protected parts; (\d+) so far/, (_, { running }) => [10, running.length]],
  [/^The protected parts in the (\d+) cases counted so far/, (_, { running }) => [running.length]],
  [
    /seen in (\d+) of the (\d+) cases answered; not answered in (\d+)/,
    (_, { running }) => {
      const looked = running.filter(({ protectedSeen }) => protectedSeen['pause'] !== undefined);
      return [
        looked.filter(({ protectedSeen }) => protectedSeen['pause']).length,
        looked.length,
        running.length - looked.length,
      ];
    },
  ],
];
