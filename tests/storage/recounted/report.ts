import { clock, inHundred, LABELS, median, quantile, zeroUpper, type Counts } from './by-hand';
import { doneInReport, leftOfAfter, ofResult } from './after';
import type { LeftTo, Recount } from './recount';

const STEP = [...LABELS.keys()].join('|');
const MONTHS = 'January February March April May June July August September October November December'.split(' ');
/** "3 (K…) of the months of the record" : a sentence of a report holds for one of its periods; which one, the page above it tells. */
const periods = ({ lists, days, cases, first, span }: Counts) => {
  const months = [...new Set(days.map((day) => day.slice(0, 7)))];
  const of = (start: string) => {
    const ids = lists.filter((_, at) => days[at]!.startsWith(start)).map(({ id }) => id);
    return cases.filter(({ listId }) => ids.includes(listId!));
  };
  return [
    ...[...months, '2026'].map((start) => ({ start, cases: of(start) })),
    ...(first.length > 0 ? [{ start: 'goal', cases: span }] : []),
  ];
};
const some = (by: Counts, holds: (cases: Counts['cases'], start: string) => boolean) =>
  periods(by).some(({ cases, start }) => holds(cases, start));
const isNumber = (text: string | undefined, value: number) => text === String(value);

/** A half second is rounded up or down as the last digit of a computer falls. */
const isTime = (text: string | undefined, seconds: number) =>
  [seconds - 1e-6, seconds].some((each) => clock(each) === text);

export const report: readonly Recount[] = [
  ...ofResult,
  doneInReport,
  [
    /^(?:- )?(\d+) lists?; (?:(\d+) timed of (\d+) operated|how many were operated was not said)\.$/,
    ([lists, timed, operated], by) =>
      some(by, (cases, start) => {
        const own = by.inMonth(start);
        if (!isNumber(lists, own.length)) return false;
        const known = own.every((list) => list.operated !== null);
        return known
          ? isNumber(timed, cases.filter(({ stretches }) => stretches.length > 0).length) &&
              isNumber(
                operated,
                own.reduce((sum, list) => sum + (list.operated ?? 0), 0),
              )
          : timed === '';
      }),
  ],
  [
    /(\d+) cases? with an event tied to no step is counted at no step/,
    ([n], by) =>
      some(by, (own) =>
        isNumber(n, by.countedOf(own).filter(({ events }) => events?.some(({ stepId }) => stepId === null)).length),
      ),
  ],
  [
    /^(?:- )?(\d+) cases\. Median, 20th percentile and two thirds of the cases are of the times as recorded, in min:s\.(?: §\.)?(?: (\d+) cases of a running window are not in it)?/,
    ([cases, hidden], by) =>
      (hidden === '' || isNumber(hidden, by.hidden.length)) &&
      some(by, (own) => isNumber(cases, by.countedOf(own).filter((one) => !by.hidden.includes(one)).length)),
  ],
  [
    new RegExp(`^\\| (${STEP}) \\| (\\d+) \\| ([\\d:]+) \\| ([\\d:]*) \\| ([\\d:]*)(?: to ([\\d:]+))? \\| (.*) \\|$`),
    ([label, n, middle, p20, low, high, events], by) =>
      some(by, (own) => {
        const shown = by.countedOf(own).filter((one) => !by.hidden.includes(one));
        const id = LABELS.get(label!)!;
        const values = by.times(shown, id);
        if (values.length === 0) return false;
        const answers = by.answeredIn(shown);
        const at = answers.filter((one) => one.events!.some(({ stepId }) => stepId === id)).length;
        const few = values.length < 5;
        return (
          isNumber(n, values.length) &&
          isTime(middle, median(values)) &&
          (few
            ? p20 === '' && low === ''
            : isTime(p20, quantile(values, 0.2)) &&
              isTime(low, quantile(values, 1 / 6)) &&
              isTime(high, quantile(values, 5 / 6))) &&
          new RegExp(`^${at} of ${answers.length}(?!\\d)`).test(events!)
        );
      }),
  ],
  [
    /^\*\*Events were answered in (\d+) of these (\d+) cases; none in those (\d+)\.\*\*$/,
    ([answered, cases, none], by) =>
      answered === none &&
      some(
        by,
        (own) =>
          isNumber(cases, own.length) &&
          isNumber(answered, by.answeredIn(own).length) &&
          by.withEvent(own).length === 0,
      ),
  ],
  [
    /^\*\*(\d+) events? in (\d+) cases\.\*\*$/,
    ([events, cases], by) =>
      some(
        by,
        (own) =>
          isNumber(cases, by.answeredIn(own).length) &&
          isNumber(
            events,
            own.reduce((sum, one) => sum + (one.events ?? []).length, 0),
          ),
      ),
  ],
  [
    /Nothing can be said about the other (\d+|one)\./,
    ([other], by) =>
      some(by, (own) =>
        other === 'one'
          ? own.length - by.answeredIn(own).length === 1
          : isNumber(other, own.length - by.answeredIn(own).length),
      ),
  ],
  [
    /For the (\d+) answered, rates up to ([\d.]+) in 100 cannot be ruled out/,
    ([n, rate], by) =>
      rate === inHundred(zeroUpper(Number(n))) && some(by, (own) => isNumber(n, by.answeredIn(own).length)),
  ],
  [
    /Events were not answered in (\d+) of these (\d+) cases; nothing can be said about (?:those|that one)/,
    ([not, of], by) =>
      some(by, (own) => isNumber(of, own.length) && isNumber(not, own.length - by.answeredIn(own).length)),
  ],
  [
    /Untimed operations on the same lists: (\d+); events answered for (\d+)/,
    ([operated, answered], by) =>
      some(by, (own) => {
        let [more, asked] = [0, 0];
        for (const list of by.lists) {
          if (!own.some(({ listId }) => listId === list.id) || list.operated === null) continue;
          const untimed = list.operated - by.onList(list.id).length;
          [more, asked] = [more + untimed, asked + (list.eventsAnsweredForAll ? untimed : 0)];
        }
        return isNumber(operated, more) && isNumber(answered, asked);
      }),
  ],
  [/is written down in these (\d+) cases/, ([n], by) => some(by, (own) => isNumber(n, own.length))],
  [
    /was taken over in (\d+) of (\d+) cases/,
    ([taken, of], by) =>
      some(
        by,
        (own) =>
          isNumber(of, own.length) &&
          isNumber(taken, own.filter(({ hands }) => hands.steps['sixth'] === 'taken-over').length),
      ),
  ],
  [/(\d+) baseline cases, fixed on the day the goal was set/, (_, { baseline }) => [baseline.length]],
  [
    /^(.*)Cases of (\w+) 2026 to (\w+) 2026; set in (\w+) 2026(?:, read in (\w+) 2026)?/,
    ([before, , , , read], { baseline, windows, running, lists, days, goal, result }) => {
      const all = [...baseline, ...(result ? windows.flat() : (windows[0] ?? running))]
        .map(({ listId }) => days[lists.findIndex(({ id }) => id === listId)]!)
        .sort();
      const name = (iso: string) => MONTHS[Number(iso.slice(5, 7)) - 1]!;
      return [before!, name(all[0]!), name(all.at(-1)!), name(goal!.setAt), read === '' ? '' : name(result!.storedAt)];
    },
  ],
  [
    /Before times were seen: (\d+)\. After: (\d+)/,
    (_, { span }) => {
      const left = span.flatMap(({ leftOut }) => leftOut ?? []);
      const seen = left.filter(({ timesSeen }) => timesSeen).length;
      return [left.length - seen, seen];
    },
  ],
  [
    /\b(January|February|March|April|May|June) 2026/,
    ([month], { days, goal, result, reflections }) =>
      [...days, goal?.setAt ?? '', result?.storedAt ?? '', ...reflections.map(({ at }) => at)].some(
        (iso) => MONTHS[Number(iso.slice(5, 7)) - 1] === month,
      ),
  ],
  [/^(?:.* )?(2026)$/, () => true],
];

export const leftOfReport: readonly LeftTo[] = leftOfAfter.filter(({ test }) => test.includes('short-times'));
