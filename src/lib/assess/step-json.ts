import type { Interval, StepAudit } from '../audit';
import { eventBounds, stepEventTally } from '../safety';
import { differenceCannotWords } from '../words';
import type { Assessment } from './assessment';
import type { ReadRecord } from './from-reading';

const pair = (interval: Interval | null): [number, number] | null => interval && [interval.low, interval.high];

/** One step of the answer. `waitingNoted`: whether waiting was noted in any case of the record. */
export function stepJson(step: StepAudit, record: ReadRecord, waitingNoted: boolean): Assessment['steps'][number] {
  // A step with an event was done, also where nobody timed it.
  const done = record.cases.filter(({ stretches, events }) =>
    [...stretches, ...(events ?? [])].some(({ stepId }) => stepId === step.stepId),
  );
  const tied = stepEventTally(done, step.stepId);
  const bounds = eventBounds(tied);
  return {
    step: step.stepId,
    label: step.label,
    n: step.n,
    median_s: step.median,
    p20_s: step.p20,
    adjusted: step.adjusted && { median_s: step.adjusted.median, p20_s: step.adjusted.p20 },
    difference_s: step.difference,
    difference_same_eyes_s: step.differenceSameEyes,
    difference_with_eye_s: step.differenceWithEye,
    difference_interval_s: pair(step.differenceInterval),
    difference_cannot: step.differenceCannot && {
      code: step.differenceCannot.code,
      because: differenceCannotWords(step.differenceCannot),
    },
    spread: step.spread,
    spread_interval: pair(step.spreadInterval),
    share: step.share,
    went_back_per_case: step.returnedTo?.perCase ?? null,
    waiting_s: waitingNoted ? step.waitingPerCase : null,
    over_time: step.overTime && { ratio_per_20: step.overTime.ratio, low: step.overTime.low, high: step.overTime.high },
    reference: step.reference && {
      n: step.reference.n,
      readers: step.reference.readers,
      ratio: step.reference.ratio,
      low: step.reference.low,
      high: step.reference.high,
    },
    events: {
      n: tied.answered === 0 ? null : tied.withEvent,
      may_belong: tied.mayBelong,
      answered: tied.answered,
      upper95: bounds.kind === 'none' ? bounds.upper95 : bounds.kind === 'some' ? bounds.high : null,
    },
    first: step.first,
  };
}
