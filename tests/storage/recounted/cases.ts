import { clock, LABELS, secondsOf } from './by-hand';
import type { Recount } from './recount';

const STEP = [...LABELS.keys()].join('|');
const plural = (count: number, one: string) => `${count} ${one}${count === 1 ? '' : 's'}`;

export const cases: readonly Recount[] = [
  [/^(\d+) cases in (\d+) lists?\.$/, (_, { cases: all, lists }) => [all.length, lists.length]],
  [
    /^Events are not answered in (\d+)\.(?: (\d+) left out\.)?$/,
    (_, { cases: all, answeredIn }) => {
      const left = all.filter(({ leftOut }) => leftOut !== null).length;
      return [all.length - answeredIn(all).length, left === 0 ? '' : left];
    },
  ],
  [/^(0) cases, lists not known\.$/, (_, { cases: all }) => [all.length]],
  [
    /^(\d+) here of (\d+) operated(?:, (\d+) timed\.)?$/,
    ([here, operated, timed], { lists, onList }) =>
      lists.some(
        (list) =>
          String(onList(list.id).length) === here &&
          String(list.operated) === operated &&
          (timed === '' || String(onList(list.id).filter(({ stretches }) => stretches.length > 0).length) === timed),
      ),
  ],
  [
    /^(\d+) cases here, (\d+) timed; how many were operated is not said/,
    ([here, timed], { lists, onList }) =>
      lists.some(
        ({ id, operated }) =>
          operated === null &&
          String(onList(id).length) === here &&
          String(onList(id).filter(({ stretches }) => stretches.length > 0).length) === timed,
      ),
  ],
  [/^(\d+ cases?)$/, ([said], { lists, onList }) => lists.some(({ id }) => plural(onList(id).length, 'case') === said)],
  [
    /^(K\d+) \| .*?(?:; waiting (\d+) times?)? \| .*?(\d+) events?( \| .*)?$/,
    ([code, waited, , rest], { byCode }) => {
      const { stretches, events } = byCode(code!)!;
      const waits = stretches.filter(({ kind }) => kind === 'waiting').length;
      return [code!, waits === 0 || waited === '' ? waited! : waits, (events ?? []).length, rest!];
    },
  ],
  [
    /^(K\d+)(:? .*?)(?:; waiting (\d+) times?)/,
    ([code, said], { byCode }) => [
      code!,
      said!,
      byCode(code!)!.stretches.filter(({ kind }) => kind === 'waiting').length,
    ],
  ],
  [/^(\d{4}-\d\d-\d\d)$/, ([day], { days }) => days.includes(day!)],
  [/^(\d)$/, ([operated], { lists }) => lists.some((list) => String(list.operated) === operated)],
  [
    new RegExp(`^(K\\d+): (${STEP}) \\| (not mine|[\\d:]+) \\| ([\\d:]*) \\| (\\d*)$`),
    ([code, label], { byCode, waitedAt }) => {
      const [one, id] = [byCode(code!)!, LABELS.get(label!)!];
      const [seconds, waited, back] = [secondsOf(one, id), waitedAt(one, id), one.returnsNoted[id] ?? 0];
      return [
        code!,
        label!,
        seconds === null ? 'not mine' : clock(seconds),
        waited > 0 ? clock(waited) : '',
        back > 0 ? back : '',
      ];
    },
  ],
  [
    new RegExp(`^(K\\d+): (${STEP}) \\| (step|waiting)(?:: lens loading)? \\|  \\|  \\| ([\\d:]+)$`),
    ([code, label, kind, time], { byCode }) =>
      byCode(code!)!.stretches.some(
        (each) => each.stepId === LABELS.get(label!) && each.kind === kind && clock(each.seconds) === time,
      ),
  ],
];
