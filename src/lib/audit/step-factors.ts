import type { Case } from '../model';
import { asChosen, stepsOf } from './merged-steps';
import type { Factor } from './pattern-factors';
import { auditThresholds } from './thresholds';
import type { StepTable } from './types';

/** Factors of one step's own: waiting just before it, and having returned to it. */
export function ownFactors(table: StepTable, index: number): Factor[] {
  const stepId = table.stepIds[index]!;
  const choice = stepsOf(table.cases, table.procedure, table.stepIds).find((each) => each.stepId === stepId);
  const present = (place: number) => !Number.isNaN(table.seconds[index]![place]);
  const anyWaiting = table.cases.some(({ stretches }) => stretches.some(({ kind }) => kind === 'waiting'));
  const factors: Factor[] = [];
  // A record without any waiting did not note waiting: "none before" would be invented.
  if (anyWaiting && choice)
    factors.push({
      id: 'waiting-before',
      kind: 'waiting-before',
      label: 'waiting just before it',
      group: Int8Array.from(table.cases, (case_, place) =>
        present(place) ? (waitedBefore(asChosen(case_, choice), stepId) ? 1 : 0) : -1,
      ),
      values: null,
      factId: null,
    });
  factors.push({
    id: 'returned-to',
    kind: 'returned-to',
    label: 'having returned to it',
    group: Int8Array.from(table.returnedTo[index]!, (count) => (Number.isNaN(count) ? -1 : count > 0 ? 1 : 0)),
    values: null,
    factId: null,
  });
  return factors;
}

/** Was there waiting between the step before and the first stretch of this one? In order of the clock, else of rows. */
export function waitedBefore(case_: Case, stepId: string): boolean {
  const clocked = case_.stretches.every(({ start }) => start !== null);
  const ordered = clocked ? [...case_.stretches].sort((a, b) => (a.start ?? 0) - (b.start ?? 0)) : case_.stretches;
  const first = ordered.findIndex((stretch) => stretch.kind === 'step' && stretch.stepId === stepId);
  for (let place = first - 1; place >= 0; place -= 1) {
    const stretch = ordered[place]!;
    if (stretch.kind === 'step') return false;
    if (stretch.kind === 'waiting' && stretch.seconds >= auditThresholds.waitedBeforeSeconds) return true;
  }
  return false;
}
