import { clearTrend, type Audit, type StepAudit } from '../../audit';
import { clock, longerBy } from '../../format';
import { differenceInstead } from '../../words';

/** The page on how a number of this room is made. */
export type HowMade =
  | 'step-time'
  | 'adjusted'
  | 'median'
  | 'spread'
  | 'reference'
  | 'share'
  | 'returned-to'
  | 'waiting'
  | 'over-time'
  | 'certainty'
  | 'suggestion';

type Column = { label: string; number?: boolean; method?: HowMade };
export type ChooseTable = { columns: Column[]; rows: string[][] };

export const hasReference = (audit: Pick<Audit, 'steps'>): boolean =>
  audit.steps.some(({ reference }) => reference !== null);

/** Every step in numbers: what the drawing shows and what it has no room for. */
export function chooseTable(steps: readonly StepAudit[], audit: Audit): ChooseTable {
  const reference = hasReference(audit);
  const apart = steps.some(({ differenceSameEyes }) => differenceSameEyes !== null);
  const seconds = (value: number | null) => (value === null ? 'not known' : clock(value));
  const ratio = (value: number) => String(Number(value.toFixed(2)));
  const hundred = (share: number | null) => (share === null ? 'not ranked' : `${Math.round(share * 100)} of 100`);
  const columns: Column[] = [
    { label: 'Step' },
    { label: 'Cases', number: true, method: 'step-time' },
    { label: 'Median', number: true, method: 'median' },
    { label: '20th percentile', number: true, method: 'median' },
    { label: 'Difference', number: true, method: 'median' },
    ...(apart ? [{ label: 'Goes with the eye', number: true, method: 'median' as const }] : []),
    { label: apart ? 'Ranked: among the same kind of eye (95 %)' : 'Ranked (95 %)', method: 'median' },
    { label: 'Two thirds of cases', method: 'spread' },
    ...(reference ? [{ label: 'Times the reference (95 %)', method: 'reference' as const }] : []),
    { label: 'Share of the operation', number: true, method: 'share' },
    { label: 'Returned to, cases', number: true, method: 'returned-to' },
    { label: 'Waiting, mean a case', number: true, method: 'waiting' },
    { label: 'From the first to the latest of these cases', method: 'over-time' },
    { label: 'First: most seconds', method: 'certainty' },
    { label: 'First: varies most', method: 'certainty' },
    ...(reference ? [{ label: 'First: against reference', method: 'certainty' as const }] : []),
  ];
  const rows = steps.map((step) => [
    step.label,
    String(step.n),
    seconds(step.median),
    step.p20 === null ? 'too few cases' : clock(step.p20),
    step.difference === null ? differenceInstead(step.differenceCannot) : clock(step.difference),
    ...(apart ? [step.differenceWithEye === null ? 'not split' : clock(step.differenceWithEye)] : []),
    step.difference !== null && step.differenceInterval
      ? `${clock(step.differenceSameEyes ?? step.difference)} (${clock(step.differenceInterval.low)} to ${clock(step.differenceInterval.high)})`
      : 'not ranked',
    step.twoThirds ? `${clock(step.twoThirds.low)} to ${clock(step.twoThirds.high)}` : 'not known',
    ...(reference
      ? [
          step.reference
            ? `${ratio(step.reference.ratio)} (${ratio(step.reference.low)} to ${ratio(step.reference.high)})`
            : step.p20 === null
              ? 'too few cases'
              : 'not in the set',
        ]
      : []),
    step.share === null ? 'not known' : `${Math.round(step.share * 100)} %`,
    step.returnedTo === null ? 'not known' : `${step.returnedTo.cases} of ${step.returnedTo.of}`,
    audit.waiting.n === 0 ? 'not noted' : clock(step.waitingPerCase),
    trendCell(step.stepId, audit),
    hundred(step.first.seconds),
    hundred(step.first.spread),
    ...(reference ? [hundred(step.first.reference)] : []),
  ]);
  return { columns, rows };
}

/** The change that the page of the step shows, from the same cases. */
function trendCell(stepId: string, { patterns }: Audit): string {
  const trend = clearTrend(patterns, stepId);
  return trend ? longerBy(trend) : 'no clear change';
}
