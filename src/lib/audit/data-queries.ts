import { median, robustScale } from '../statistics';
import type { Case, Procedure } from '../model';
import { mapped, scaled, type Work } from '../turns';
import { inOrder } from './counted-cases';
import { asChosen, stepsOf, type StepChoice } from './merged-steps';
import { spanOf, stepSecondsOf } from './step-time';
import { auditThresholds } from './thresholds';

/** What is asked about, with its numbers; times in seconds, steps by their labels. */
export type DataQueryReason =
  | { code: 'far-from-own'; seconds: number; far: 'longer' | 'shorter'; step: string }
  | { code: 'far-from-any'; seconds: number; far: 'longer' | 'shorter' }
  | { code: 'overlap'; steps: readonly [string, string]; seconds: number }
  | { code: 'few-steps'; timed: number; of: number }
  /** Half of the times are no longer than that: a whole file in another unit. */
  | { code: 'unit'; times: number; median: number };

/** A case that is kept and counted, but asked about. `row`: of the file it came from; `null`: from none. */
export type DataQuery = {
  caseId: string;
  code: string;
  stepId: string | null;
  row: number | null;
  why: DataQueryReason;
};

type Range = { low: number; high: number };

/**
 * What should be asked about: times far from the surgeon's own, stretches of two steps that overlap, and cases with
 * fewer than half of the steps usually timed. In order of time. Nothing is taken out because of a query.
 *
 * @param about which cases are asked about; all of them say what is usual
 */
export function* dataQueries(
  cases: readonly Case[],
  procedure: Procedure,
  about: (one: Case) => boolean = () => true,
): Work<DataQuery[]> {
  const ordered = inOrder(cases.filter(({ procedureId }) => procedureId === procedure.id));
  const choices = stepsOf(ordered, procedure);
  const seconds = yield* scaled(
    mapped(ordered, (case_) => choices.map((choice) => stepSecondsOf(asChosen(case_, choice), choice.stepId))),
    0,
    0.5,
  );
  const ranges = choices.map((_, step) => ownRange(seconds.map((row) => row[step] ?? null)));
  const common = commonSteps(ordered, procedure, choices);
  const asked = yield* scaled(
    mapped(ordered, (case_, place) =>
      about(case_)
        ? [
            ...choices.flatMap(({ stepId }, step) =>
              farFromOwn(case_, stepId, seconds[place]?.[step] ?? null, ranges[step] ?? null, procedure),
            ),
            ...overlaps(case_, procedure),
            ...fewSteps(case_, common),
          ]
        : [],
    ),
    0.5,
    1,
  );
  return asked.flat();
}

/** A whole file in another unit than seconds: no single time in it looks odd beside the others. */
export function unitQuery(cases: readonly Case[]): DataQueryReason | null {
  const times = cases.flatMap(({ stretches }) =>
    stretches.flatMap(({ kind, seconds }) => (kind === 'step' ? [seconds] : [])),
  );
  if (times.length < auditThresholds.unitFrom) return null;
  const middle = median(times);
  return middle < auditThresholds.unitBelowSeconds ? { code: 'unit', times: times.length, median: middle } : null;
}

const query = (case_: Case, stepId: string | null, why: DataQueryReason): DataQuery => ({
  caseId: case_.id,
  code: case_.code,
  stepId,
  row: case_.source.kind === 'file' ? case_.source.row : null,
  why,
});

/** The times between which the surgeon's own step lies within six robust SDs, log scale; `null` while too few are known. */
function ownRange(times: readonly (number | null)[]): Range | null {
  const logs = times.flatMap((seconds) => (seconds === null ? [] : [Math.log(seconds)]));
  if (logs.length < auditThresholds.queryFrom) return null;
  const spread = robustScale(logs);
  // Where most times are equal only an SD is left, and that grows with the very time in question.
  const own = spread === null || spread.method === 'sd' ? 0 : spread.scale;
  const scale = Math.max(own, auditThresholds.queryScaleFloor);
  const reach = auditThresholds.queryScales * scale;
  return { low: Math.exp(median(logs) - reach), high: Math.exp(median(logs) + reach) };
}

function farFromOwn(
  case_: Case,
  stepId: string,
  seconds: number | null,
  range: Range | null,
  procedure: Procedure,
): DataQuery[] {
  if (seconds === null) return [];
  const { low, high } = range ?? { low: 0, high: auditThresholds.queryLongSeconds };
  if (seconds >= low && seconds <= high) return [];
  const far = seconds > high ? 'longer' : 'shorter';
  const why: DataQueryReason = range
    ? { code: 'far-from-own', seconds, far, step: labelOf(procedure, stepId) }
    : { code: 'far-from-any', seconds, far };
  return [query(case_, stepId, why)];
}

/** Two steps cannot go on at once; marks a second apart are a matter of pressing the key. */
function overlaps(case_: Case, procedure: Procedure): DataQuery[] {
  const spans = case_.stretches
    .flatMap((stretch) => {
      const span = stretch.kind === 'step' ? spanOf(stretch) : null;
      return span && stretch.stepId ? [{ ...span, stepId: stretch.stepId }] : [];
    })
    .sort((a, b) => a.from - b.from || a.to - b.to);
  const found = new Map<string, DataQuery>();
  spans.forEach((span, place) => {
    for (const next of spans.slice(place + 1)) {
      if (next.from >= span.to) break;
      const both = Math.min(span.to, next.to) - next.from;
      if (next.stepId === span.stepId || both < auditThresholds.joinSeconds) continue;
      const steps = [labelOf(procedure, span.stepId), labelOf(procedure, next.stepId)] as const;
      const key = [span.stepId, next.stepId].sort().join('/');
      if (!found.has(key)) found.set(key, query(case_, next.stepId, { code: 'overlap', steps, seconds: both }));
    }
  });
  return [...found.values()];
}

/**
 * Steps of the procedure, optional ones aside, that this surgeon times in at least half of the cases. Counting all
 * of the procedure's would ask about every case of a surgeon who times four steps on purpose.
 */
function commonSteps(cases: readonly Case[], procedure: Procedure, choices: readonly StepChoice[]): StepChoice[] {
  const optional = new Set(procedure.steps.filter((step) => step.optional).map(({ id }) => id));
  return choices.filter(
    (choice) =>
      !optional.has(choice.stepId) && cases.filter((case_) => isTimed(case_, choice)).length * 2 >= cases.length,
  );
}

/** Timed at all, whoever did it. */
const isTimed = (case_: Case, { stepId, partIds }: StepChoice) =>
  case_.stretches.some(
    ({ kind, stepId: of }) => kind === 'step' && of !== null && (of === stepId || partIds?.includes(of)),
  );

function fewSteps(case_: Case, common: readonly StepChoice[]): DataQuery[] {
  const timed = common.filter((choice) => isTimed(case_, choice)).length;
  // A case without any time is not half a recording: its times are still to come.
  if (timed * 2 >= common.length || case_.stretches.length === 0) return [];
  return [query(case_, null, { code: 'few-steps', timed, of: common.length })];
}

const labelOf = ({ steps }: Procedure, stepId: string) => steps.find(({ id }) => id === stepId)?.label ?? stepId;
