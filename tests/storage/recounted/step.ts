import { clock, inHundred, median, prose, quantile, zeroUpper } from './by-hand';
import type { LeftTo, Recount } from './recount';
import type { Counts } from './by-hand';

const practised = ({ shown, times }: Counts) => times(shown, 'practised');
const done = ({ shown, times }: Counts) => shown.filter((one) => times([one], 'practised').length > 0);

/** The times of the cases that one row of the split holds: by the fact, in halves by order, or all of them. */
const timesOfRow = (row: string, by: Counts): number[] => {
  const [all, half] = [done(by), Math.ceil(done(by).length / 2)];
  const dense = (answer?: boolean) => all.filter(({ facts }) => facts['dense'] === answer);
  const parts: Readonly<Record<string, () => Counts['cases']>> = {
    'all cases': () => all,
    earlier: () => all.slice(0, half),
    later: () => all.slice(half),
    dense: () => dense(true),
    'dense: no': () => dense(false),
    'not recorded': () => dense(),
  };
  return by.times(parts[row]?.() ?? [], 'practised');
};
const ROW = '(all cases|earlier|later|dense|dense: no|not recorded)';
const middleOf = (times: readonly number[], tooFew: string) => (times.length < 5 ? tooFew : clock(median(times)));

export const step: readonly Recount[] = [
  [
    new RegExp(`^${ROW} \\| (\\d+) cases?(?: \\| ([\\d:]+))?$`),
    ([row], by) => {
      const times = timesOfRow(row!, by);
      return [row!, times.length, middleOf(times, '')];
    },
  ],
  [
    new RegExp(`^${ROW} \\| (\\d+) \\| (too few|[\\d:]+) \\| ([\\d:]+) \\| ([\\d:]+)$`),
    ([row], by) => {
      const times = timesOfRow(row!, by);
      return [row!, times.length, middleOf(times, 'too few'), clock(Math.min(...times)), clock(Math.max(...times))];
    },
  ],
  [/^Practised became shorter over these (\d+) cases\.$/, (_, by) => [done(by).length]],
  [/\| a line through (\d+) cases \|/, (_, by) => [done(by).length]],
  [/^Its median is (.+?), in your own (\d+) cases\.$/, (_, by) => [prose(median(practised(by))), practised(by).length]],
  [
    /^Its median is (.+?); one in five of your own (\d+) cases took (.+?) or less\.$/,
    (_, by) => [prose(median(practised(by))), practised(by).length, prose(quantile(practised(by), 0.2))],
  ],
  [/cannot be said yet: (\d+) of the (\d+) cases it needs/, (_, by) => [practised(by).length, 5]],
  [
    /^Median and 20th percentile are (.+?) apart \(.*\)\.$/,
    (_, by) => [prose(median(practised(by)) - quantile(practised(by), 0.2))],
  ],
  [
    /^Two thirds of your cases took between (.+?) and (.+?)\.$/,
    (_, by) => [prose(quantile(practised(by), 1 / 6)), prose(quantile(practised(by), 5 / 6))],
  ],
  [/With (\d+) cases only very large differences would show/, (_, { shown }) => [shown.length]],
  [/from the first to the latest of these (\d+) cases/, (_, { shown }) => [shown.length]],
  [/^latest (\d+)$/, (_, { shown }) => [shown.length]],
  [
    /^(K\d+) \| (?:none|event|not-answered) \| ([\d:]+) as recorded; \d+ against the rest of the operation/,
    ([code], { byCode, times }) => [code!, clock(times([byCode(code!)!], 'practised')[0]!)],
  ],
  [
    /^(K\d+) \| ([\d:]+) \| [\d.]+ \| \d+ \| (none|event|not answered)$/,
    ([code], { byCode, times }) => {
      const one = byCode(code!)!;
      const said = one.events === null ? 'not answered' : one.events.length > 0 ? 'event' : 'none';
      return [code!, clock(times([one], 'practised')[0]!), said];
    },
  ],
  [
    /^Returned to in (none|\d+) of (\d+) cases/,
    (_, by) => {
      const back = done(by).filter(({ returnsNoted }) => (returnsNoted['practised'] ?? 0) > 0).length;
      return [back === 0 ? 'none' : back, done(by).length];
    },
  ],
  [
    /^No event is tied to this step \(events answered in (\d+) of (\d+) cases\)\. (\d+) of (\d+): the true rate could be up to ([\d.]+) in 100/,
    (_, { shown, answeredIn }) => {
      const answered = answeredIn(shown).length;
      return [answered, shown.length, 0, answered, inHundred(zeroUpper(answered))];
    },
  ],
  [
    /^(\d+) cases? with an event tied to this step, of (\d+) in which events were answered/,
    (_, { shown, answeredIn }) => [
      shown.filter(({ events }) => events?.some(({ stepId }) => stepId === 'practised')).length,
      answeredIn(shown).length,
    ],
  ],
  [
    /; (\d+) cases? ha(?:s|ve) an event that is tied to no step and may belong here/,
    (_, { shown }) => [
      shown.filter(
        ({ events }) =>
          events?.some(({ stepId }) => stepId === null) && !events.some(({ stepId }) => stepId === 'practised'),
      ).length,
    ],
  ],
];

export const leftOfStep: readonly LeftTo[] = [
  {
    pattern: /two groups of times \(about .+? and about .+?\)( \| \d+ cases with, \d+ without)?/,
    why: 'the two groups of a mixture',
    test: 'tests/unit/audit/bimodality.test.ts',
  },
  {
    pattern: /(about )?[\d.]+ times as long \([\d.]+ to [\d.]+\)|\| [\d.]+ \| [\d.]+ to [\d.]+$/,
    why: 'the ratio of a pattern, adjusted and shrunk',
    test: 'tests/unit/audit/patterns.test.ts',
  },
];
