import type { Case, Procedure, Stretch } from '../../model';
import { stepInitials } from './step-initials';

/** What the small drawing of a case needs, part by part in order; the drawing itself lives with the charts. */
export type SummaryPart = { kind: Stretch['kind']; initial: string; seconds: number; start: number | null };

export type CaseSummary = { parts: readonly SummaryPart[]; label: string };

const orderOf = (procedure: Procedure) => new Map(procedure.steps.map(({ id }, index) => [id, index]));

/** Stretches in order: by the clock where every reading is known, else by step with waiting and protected parts after it. */
export function stretchesInOrder(one: Case, procedure: Procedure): Stretch[] {
  const clocked = one.stretches.every(({ start }) => start !== null);
  if (clocked) return [...one.stretches].sort((a, b) => (a.start ?? 0) - (b.start ?? 0));
  const order = orderOf(procedure);
  const place = ({ stepId }: Stretch) => (stepId === null ? order.size : (order.get(stepId) ?? order.size));
  return one.stretches
    .map((stretch, index) => ({ stretch, index }))
    .sort((a, b) => place(a.stretch) - place(b.stretch) || a.index - b.index)
    .map(({ stretch }) => stretch);
}

/**
 * A case as step initials in proportion. Lengths alone: waiting and protected parts lie inside their step, so the step
 * is shown without them and the parts of the drawing add up to the operation.
 */
export function caseSummary(one: Case, procedure: Procedure): CaseSummary {
  const initials = stepInitials(procedure);
  const inOrder = stretchesInOrder(one, procedure);
  const inside = new Map<string, number>();
  for (const { stepId, start, kind, seconds } of inOrder)
    if (kind !== 'step' && stepId !== null && start === null) inside.set(stepId, (inside.get(stepId) ?? 0) + seconds);

  const parts = inOrder.map((stretch): SummaryPart => {
    const { stepId, kind, start } = stretch;
    let { seconds } = stretch;
    if (kind === 'step' && stepId !== null && start === null) {
      const taken = Math.min(inside.get(stepId) ?? 0, seconds);
      inside.set(stepId, (inside.get(stepId) ?? 0) - taken);
      seconds -= taken;
    }
    return { kind, initial: kind === 'step' && stepId !== null ? (initials[stepId] ?? '') : '', seconds, start };
  });
  return { parts, label: summaryLabel(inOrder, procedure) };
}

/** The drawing in words: the order of the steps, and what lies between. No seconds. */
function summaryLabel(inOrder: readonly Stretch[], procedure: Procedure): string {
  const names: string[] = [];
  for (const { stepId, kind } of inOrder) {
    const label = procedure.steps.find(({ id }) => id === stepId)?.label;
    if (kind === 'step' && label && names.at(-1) !== label) names.push(label);
  }
  const count = (kind: Stretch['kind']) => inOrder.filter((stretch) => stretch.kind === kind).length;
  const [waiting, kept] = [count('waiting'), count('protected')];
  return [
    `In order: ${names.join(', ')}`,
    ...(waiting > 0 ? [`waiting ${waiting} ${waiting === 1 ? 'time' : 'times'}`] : []),
    ...(kept > 0 ? [`${kept} protected ${kept === 1 ? 'part' : 'parts'}`] : []),
  ].join('; ');
}
