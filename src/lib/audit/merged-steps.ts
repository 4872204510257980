import type { Case, Procedure, Step } from '../model';
import { stepSecondsOf } from './step-time';
import { auditThresholds } from './thresholds';

/**
 * Where several steps are often timed as one, a case may carry either the merged step or its parts. One table holds one
 * or the other, never both: counting both would double the seconds.
 */
export type StepChoice = { stepId: string; partIds: readonly string[] | null };

const has = (case_: Case, stepId: string) =>
  case_.stretches.some((stretch) => stretch.kind === 'step' && stretch.stepId === stepId);

function mergedWins(
  cases: readonly Case[],
  merged: Step,
  parts: readonly string[],
  wanted: readonly string[],
): boolean | 'both' {
  if (wanted.includes(merged.id)) return true;
  if (parts.some((id) => wanted.includes(id))) return false;
  let mergedCases = 0;
  let partCases = 0;
  let together = 0;
  for (const case_ of cases) {
    const carriesMerged = has(case_, merged.id);
    const carriesPart = parts.some((id) => has(case_, id));
    mergedCases += carriesMerged ? 1 : 0;
    partCases += carriesPart ? 1 : 0;
    together += carriesMerged && carriesPart ? 1 : 0;
  }
  if (mergedCases === 0) return false;
  // Most merged clocks stand beside one of the parts: this surgeon's "merged" label means something narrower.
  if (together > mergedCases / 2) return 'both';
  return partCases === 0 || mergedCases >= auditThresholds.fewMerged * (mergedCases + partCases - together);
}

/**
 * Which steps of the procedure stand in a table of these cases, in the order of the operation.
 *
 * @param wanted steps that must be there (a goal's step): they decide between a merged step and its parts.
 */
export function stepsOf(cases: readonly Case[], procedure: Procedure, wanted: readonly string[] = []): StepChoice[] {
  const dropped = new Set<string>();
  const partsOf = new Map<string, readonly string[]>();
  for (const step of procedure.steps) {
    if (!step.mergeOf?.length) continue;
    const wins = mergedWins(cases, step, step.mergeOf, wanted);
    if (wins === 'both') continue;
    if (wins) {
      partsOf.set(step.id, step.mergeOf);
      step.mergeOf.forEach((id) => dropped.add(id));
    } else dropped.add(step.id);
  }
  return procedure.steps
    .filter(
      ({ id, retired }) =>
        !dropped.has(id) && (!retired || wanted.includes(id) || cases.some((case_) => has(case_, id))),
    )
    .map(({ id }) => ({ stepId: id, partIds: partsOf.get(id) ?? null }));
}

/**
 * The case as the table reads it: where the parts stand in for the merged step (all of them, done by the surgeon),
 * their stretches are read as stretches of the merged step. Going from one part to the next and back (chop and remove,
 * in turn) is then how the merged step is done, not returning to it.
 */
export function asChosen(case_: Case, { stepId, partIds }: StepChoice): Case {
  if (!partIds || has(case_, stepId) || (case_.hands.steps[stepId] ?? 'mine') !== 'mine') return case_;
  if (!partIds.every((id) => stepSecondsOf(case_, id) !== null)) return case_;
  const noted = partIds.map((id) => case_.returnsNoted[id]).filter((count) => count !== undefined);
  return {
    ...case_,
    hands: { whole: case_.hands.whole, steps: { ...case_.hands.steps, [stepId]: 'mine' } },
    returnsNoted: noted.length === 0 ? {} : { [stepId]: noted.reduce((sum, count) => sum + count, 0) },
    stretches: case_.stretches.map((stretch) =>
      stretch.stepId !== null && partIds.includes(stretch.stepId) ? { ...stretch, stepId } : stretch,
    ),
  };
}

/** The step, and the parts it stands for in a table that does not hold them: what waiting may be tied to. */
export function alsoNamed(
  stepId: string,
  { procedure, stepIds }: { procedure: Procedure; stepIds: readonly string[] },
): string[] {
  const parts = procedure.steps.find(({ id }) => id === stepId)?.mergeOf ?? [];
  return [stepId, ...parts.filter((id) => !stepIds.includes(id))];
}
