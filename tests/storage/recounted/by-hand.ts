import type { Case } from '../../../src/lib/model';
import { operation } from '../../made-up/month';
import type { Moment } from './record';

/** The counts of a record as somebody would make them with a pencil: loops over the raw cases, and nothing of the app. */

export const LABELS = new Map(operation.steps.map(({ id, label }) => [label, id]));

/** Seconds of a step done by own hands, less the waiting inside it; `null`: not timed, or done by someone else. */
export function secondsOf(one: Case, stepId: string): number | null {
  if ((one.hands.steps[stepId] ?? one.hands.whole) !== 'mine') return null;
  let [sum, timed] = [0, false];
  for (const { stepId: of, kind, seconds } of one.stretches) {
    if (of !== stepId) continue;
    if (kind === 'step') [sum, timed] = [sum + seconds, true];
    else sum -= seconds;
  }
  return timed ? sum : null;
}

/** Hyndman and Fan, type 8 (The American Statistician 1996;50:361): between two neighbours at (n + 1/3) p + 1/3. */
export function quantile(values: readonly number[], p: number): number {
  const sorted = [...values].sort((a, b) => a - b);
  const place = (sorted.length + 1 / 3) * p + 1 / 3;
  const low = Math.min(Math.max(Math.floor(place), 1), sorted.length);
  const high = Math.min(low + 1, sorted.length);
  return sorted[low - 1]! + Math.min(Math.max(place - low, 0), 1) * (sorted[high - 1]! - sorted[low - 1]!);
}
export const median = (values: readonly number[]): number => {
  const sorted = [...values].sort((a, b) => a - b);
  const half = Math.floor(sorted.length / 2);
  return sorted.length % 2 === 1 ? sorted[half]! : (sorted[half - 1]! + sorted[half]!) / 2;
};

export const clock = (seconds: number): string => {
  const whole = Math.round(seconds + 1e-9);
  return `${Math.floor(whole / 60)}:${String(whole % 60).padStart(2, '0')}`;
};
export function prose(seconds: number): string {
  const whole = Math.round(seconds + 1e-9);
  if (whole < 1) return 'under 1 s';
  const [minutes, rest] = [Math.floor(whole / 60), whole % 60];
  return [minutes > 0 ? `${minutes} min` : '', rest > 0 ? `${rest} s` : ''].filter(Boolean).join(' ');
}
export const percent = (logRatio: number): string => {
  const change = Math.round(100 * (Math.exp(logRatio) - 1));
  return change === 0 ? 'no difference' : `${Math.abs(change)} % ${change < 0 ? 'less' : 'more'}`;
};

const MONTHS = 'January February March April May June July August September October November December'.split(' ');
export const dayWords = (iso: string): string =>
  `${Number(iso.slice(8, 10))} ${MONTHS[Number(iso.slice(5, 7)) - 1]} ${iso.slice(0, 4)}`;

export function counts({ record, day }: Moment) {
  const { cases, lists, reflections, results } = record;
  const [goal] = record.goals;
  const [result] = results;
  const timedOwn = (one: Case) => operation.steps.filter(({ id }) => secondsOf(one, id) !== null).length;
  const countedOf = (all: readonly Case[]) => all.filter((one) => one.leftOut === null && timedOwn(one) > 0);
  const listsOf = (all: readonly Case[]) => [...new Set(all.map(({ listId }) => listId))];
  const days = lists.map(({ when }) => (when.kind === 'date' ? when.date : ''));

  // Windows: twenty cases with the step and three others after the goal, over four lists at least.
  const windows: Case[][] = [];
  let running: Case[] = [];
  for (const one of goal ? cases.filter(({ sequence }) => sequence > goal.afterSequence) : []) {
    if (one.leftOut !== null || secondsOf(one, 'practised') === null || timedOwn(one) < 4) continue;
    running.push(one);
    if (running.length >= 20 && listsOf(running).length >= 4) {
      windows.push(running);
      running = [];
    }
  }
  const ofGoal = [...windows.flat(), ...running];
  const answered = new Set(reflections.flatMap(({ answers }) => answers.map(({ caseId }) => caseId)));
  const waiting = goal ? ofGoal.filter(({ id }) => !answered.has(id)) : [];
  const first = windows[0] ?? running;
  const firstWaits = first.some((one) => waiting.includes(one));
  const hidden = goal && !result && (windows.length === 0 || firstWaits) ? first : [];
  const seen = cases.filter((one) => !hidden.includes(one));
  const shown = countedOf(seen).slice(-100);
  const span =
    first.length === 0
      ? []
      : cases.filter(({ sequence }) => sequence >= first[0]!.sequence && sequence <= first.at(-1)!.sequence);
  const times = (all: readonly Case[], stepId: string) => all.flatMap((one) => secondsOf(one, stepId) ?? []);
  const baseline = cases.filter(({ id }) => goal?.baseline.caseIds.includes(id));
  const eventAt = cases.findIndex(({ events }) => events?.some(({ stepId }) => stepId === 'practised'));
  return {
    record,
    day,
    cases,
    lists,
    days,
    goal,
    result,
    reflections,
    counted: countedOf(cases),
    countedOf,
    listsOf,
    windows,
    running,
    first,
    waiting,
    hidden,
    seen,
    shown,
    span,
    times,
    baseline,
    waitedAt: (one: Case, stepId: string) =>
      one.stretches.reduce(
        (sum, each) => sum + (each.kind === 'waiting' && each.stepId === stepId ? each.seconds : 0),
        0,
      ),
    casesAgo: cases.length - 1 - eventAt,
    answeredIn: (all: readonly Case[]) => all.filter(({ events }) => events !== null),
    withEvent: (all: readonly Case[]) => all.filter(({ events }) => (events ?? []).length > 0),
    onList: (listId: string) => cases.filter((one) => one.listId === listId),
    inMonth: (month: string) => lists.filter((_, at) => days[at]!.startsWith(month)),
    byCode: (code: string) => cases.find((one) => one.code === code),
  };
}
export type Counts = ReturnType<typeof counts>;

/** Share that no event in so many leaves possible: 1 − 0.05^(1/n) (Hanley and Lippman-Hand, JAMA 1983;249:1743). */
export const zeroUpper = (n: number): number => 100 * (1 - 0.05 ** (1 / n));
export const inHundred = (share: number): string =>
  share < 1 ? share.toPrecision(1) : share < 10 ? String(Number(share.toPrecision(2))) : String(Math.round(share));
