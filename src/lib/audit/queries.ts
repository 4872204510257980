import { median, robustScale } from '../statistics';
import type { Case, Problem, Procedure } from '../model';
import { inOrder } from './counted';
import { inSentence } from './fact-words';
import { asChosen, stepsOf, type StepChoice } from './merged-steps';
import { spanOf, stepSecondsOf } from './step-time';
import { auditThresholds } from './thresholds';

/** A case that is kept and counted, but asked about. */
export type Query = Problem & { caseId: string; code: string; stepId: string | null };

/**
 * What should be asked about: times far from the surgeon's own, stretches of two steps that overlap, and cases with
 * fewer than half of the steps usually timed. In order of time. Nothing is taken out because of a query.
 */
export function queriesOf(cases: readonly Case[], procedure: Procedure): Query[] {
  const ordered = inOrder(cases.filter(({ procedureId }) => procedureId === procedure.id));
  const choices = stepsOf(ordered, procedure);
  const ranges = choices.map((choice) => ownRange(ordered, choice));
  const usual = usualSteps(ordered, procedure, choices);
  return ordered.flatMap((case_) => [
    ...choices.flatMap((choice, step) => farFromOwn(case_, choice, ranges[step] ?? null, procedure)),
    ...overlaps(case_, procedure),
    ...fewSteps(case_, usual),
  ]);
}

const query = (case_: Case, stepId: string | null, value: string | null, why: string): Query => ({
  caseId: case_.id,
  code: case_.code,
  stepId,
  row: case_.source.kind === 'file' ? case_.source.row : null,
  column: stepId,
  value,
  why,
  weight: 'queried',
});

/** The times between which the surgeon's own step lies within six robust SDs, log scale; `null` while too few are known. */
function ownRange(cases: readonly Case[], choice: StepChoice): { low: number; high: number } | null {
  const logs = cases.flatMap((case_) => {
    const seconds = stepSecondsOf(asChosen(case_, choice), choice.stepId);
    return seconds === null ? [] : [Math.log(seconds)];
  });
  if (logs.length < auditThresholds.queryFrom) return null;
  const scale = Math.max(robustScale(logs)?.scale ?? 0, auditThresholds.queryScaleFloor);
  const reach = auditThresholds.queryScales * scale;
  return { low: Math.exp(median(logs) - reach), high: Math.exp(median(logs) + reach) };
}

function farFromOwn(
  case_: Case,
  choice: StepChoice,
  range: { low: number; high: number } | null,
  procedure: Procedure,
): Query[] {
  const seconds = stepSecondsOf(asChosen(case_, choice), choice.stepId);
  if (seconds === null) return [];
  const { low, high } = range ?? { low: 0, high: auditThresholds.queryLongSeconds };
  if (seconds >= low && seconds <= high) return [];
  const label = labelOf(procedure, choice.stepId);
  const than = range ? `than you usually take for ${label}` : `than any step usually takes`;
  const why = `${Math.round(seconds)} s is far ${seconds > high ? 'longer' : 'shorter'} ${than}. Is the time right?`;
  return [query(case_, choice.stepId, String(Number(seconds.toFixed(2))), why)];
}

/** Two steps cannot go on at once; marks a second apart are a matter of pressing the key. */
function overlaps(case_: Case, procedure: Procedure): Query[] {
  const spans = case_.stretches
    .flatMap((stretch) => {
      const span = stretch.kind === 'step' ? spanOf(stretch) : null;
      return span && stretch.stepId ? [{ ...span, stepId: stretch.stepId }] : [];
    })
    .sort((a, b) => a.from - b.from || a.to - b.to);
  const found = new Map<string, Query>();
  spans.forEach((span, place) => {
    for (const next of spans.slice(place + 1)) {
      if (next.from >= span.to) break;
      const both = Math.min(span.to, next.to) - next.from;
      if (next.stepId === span.stepId || both < auditThresholds.joinSeconds) continue;
      const [first, second] = [labelOf(procedure, span.stepId), labelOf(procedure, next.stepId)];
      const why = `Stretches of ${first} and ${second} overlap by ${Math.round(both)} s. Which of the two was going on?`;
      const key = [span.stepId, next.stepId].sort().join('/');
      if (!found.has(key)) found.set(key, query(case_, next.stepId, `${next.from} to ${next.to}`, why));
    }
  });
  return [...found.values()];
}

/**
 * Steps of the procedure, optional ones aside, that this surgeon times in at least half of the cases. Counting all
 * of the procedure's would ask about every case of a surgeon who times four steps on purpose.
 */
function usualSteps(cases: readonly Case[], procedure: Procedure, choices: readonly StepChoice[]): StepChoice[] {
  const optional = new Set(procedure.steps.filter((step) => step.optional).map(({ id }) => id));
  return choices.filter(
    (choice) =>
      !optional.has(choice.stepId) && cases.filter((case_) => isTimed(case_, choice)).length * 2 >= cases.length,
  );
}

/** Timed at all, by whose hands so ever. */
const isTimed = (case_: Case, { stepId, partIds }: StepChoice) =>
  case_.stretches.some(
    ({ kind, stepId: of }) => kind === 'step' && of !== null && (of === stepId || partIds?.includes(of)),
  );

function fewSteps(case_: Case, usual: readonly StepChoice[]): Query[] {
  const timed = usual.filter((choice) => isTimed(case_, choice)).length;
  if (timed * 2 >= usual.length) return [];
  const why = `Only ${timed} of the ${usual.length} steps you usually time are here. Is the recording complete?`;
  return [query(case_, null, String(timed), why)];
}

const labelOf = ({ steps }: Procedure, stepId: string) =>
  inSentence(steps.find(({ id }) => id === stepId)?.label ?? stepId);
