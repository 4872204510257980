import type { StepAudit } from '../../audit';
import { clock, prose } from '../../format';
import type { StandingView } from '../../rules';
import { differenceInstead, firstWords } from '../../words';

/** Waiting below this is not drawn: a bar of a few seconds says nothing beside a step of minutes. */
const WAITING_DRAWN = 5;

/** One row of the drawing: numbers to place, words to print. */
export type ChooseRowView = {
  id: string;
  href: string;
  label: string;
  usual: string | null;
  certainty: string;
  suggested: boolean;
  dots: readonly { code: string; ratio: number; said: string }[];
  range: { low: number; high: number; said: string } | null;
  reference: { ratio: number; said: string } | null;
  /** `withEye`: what goes with the eye, beside the part that is ranked; 0 where the difference is not split. */
  bar: {
    seconds: number;
    withEye: number;
    low: number;
    high: number;
    said: string;
    saidWithEye: string;
    told: string;
  } | null;
  instead: string | null;
  waiting: { seconds: number; said: string } | null;
};

export function rowOf(
  step: StepAudit,
  view: StandingView,
  suggested: boolean,
  enough: boolean,
  query: string,
): ChooseRowView {
  const { reference, median } = step;
  const bar = step.notToShorten ? null : barOf(step);
  return {
    id: step.stepId,
    href: `/choose/${step.stepId}${query}`,
    label: step.retired ? `${step.label} (retired)` : step.label,
    usual: median === null ? null : clock(median),
    certainty: enough ? firstWords(step.first[view]) : '',
    suggested,
    dots: step.dots.map(({ code, ratio, seconds }) => ({ code, ratio, said: `${clock(seconds)} as recorded` })),
    range:
      median !== null && step.twoThirds
        ? {
            low: step.twoThirds.low / median,
            high: step.twoThirds.high / median,
            said: `two thirds of cases between ${clock(step.twoThirds.low)} and ${clock(step.twoThirds.high)}, as recorded`,
          }
        : null,
    reference:
      reference && median !== null
        ? { ratio: 1 / reference.ratio, said: `reference median ${clock(reference.median)}, as recorded` }
        : null,
    bar,
    instead: step.notToShorten ? 'not to be shortened' : bar ? null : differenceInstead(step.differenceCannot),
    waiting:
      step.waitingPerCase > WAITING_DRAWN
        ? { seconds: step.waitingPerCase, said: `waiting ${prose(step.waitingPerCase)}` }
        : null,
  };
}

/** A difference is never shown without its interval: with a dozen cases it may be off by half. */
function barOf(step: StepAudit): ChooseRowView['bar'] {
  const { difference, differenceSameEyes, differenceWithEye, differenceInterval: interval } = step;
  if (difference === null || interval === null) return null;
  const seconds = differenceSameEyes ?? difference;
  return {
    seconds,
    withEye: differenceWithEye ?? 0,
    low: interval.low,
    high: interval.high,
    said: prose(seconds),
    saidWithEye: differenceWithEye ? ` + ${prose(differenceWithEye)}` : '',
    told:
      differenceSameEyes === null
        ? `median less 20th percentile ${prose(seconds)} (${prose(interval.low)} to ${prose(interval.high)})`
        : `median less 20th percentile ${prose(difference)}, as recorded; among the same kind of eye, adjusted, ${prose(seconds)} (${prose(interval.low)} to ${prose(interval.high)})`,
  };
}

/** What the marks mean that are drawn. */
export function keyOf(rows: readonly ChooseRowView[], view: StandingView): string {
  const bars = rows.flatMap(({ bar }) => bar ?? []);
  const apart = bars.some(({ withEye }) => withEye > 0);
  return [
    '○ one case, its adjusted time over your median',
    rows.some(({ reference }) => reference) ? '◇ median of the reference set, adjusted' : '',
    view === 'spread' ? 'bracket: two thirds of your cases, as recorded' : '',
    bars.length > 0 ? 'bar: median less 20th percentile, with its 95 % interval' : '',
    apart ? 'hatched part: goes with the eye; steps are ranked by the rest, adjusted, and the interval is of it' : '',
    rows.some(({ waiting }) => waiting) ? 'hatched below it: waiting, the mean of all cases' : '',
    '‹ › beyond the axis',
  ]
    .filter(Boolean)
    .join(' · ');
}
