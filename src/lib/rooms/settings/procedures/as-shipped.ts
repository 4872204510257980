import type { EyeFact, Procedure, Step } from '../../../model';
import type { ProcedureUse } from './use';

type WithId = { id: string };

/** Those of the surgeon's own that the record rests on: they stay, after the ones that are shipped. */
const added = <T extends WithId>(own: readonly T[], shipped: readonly T[], used: (id: string) => boolean): T[] =>
  own.filter(({ id }) => used(id) && !shipped.some((each) => each.id === id));

/**
 * An edited procedure put back to how it is shipped. What the record rests on is never lost: a step of the surgeon's own
 * with timings stays, retired; a fact with answers stays, asked of files only; answers, protected parts, reasons and kinds of
 * event that stand in cases stay as they are.
 */
export function asShipped(edited: Procedure, shipped: Procedure, use: ProcedureUse): Procedure {
  const known = (id: string) => use.timed.has(id) || use.named.has(id);
  const steps: Step[] = shipped.steps.map((step) => {
    const own = edited.steps.find(({ id }) => id === step.id);
    const parts = added(own?.protectedParts ?? [], step.protectedParts, (id) => use.protectedParts.has(id));
    return parts.length > 0 ? { ...step, protectedParts: [...step.protectedParts, ...parts] } : step;
  });
  for (const step of edited.steps) {
    const recorded = known(step.id) || step.protectedParts.some(({ id }) => use.protectedParts.has(id));
    if (!recorded || shipped.steps.some(({ id }) => id === step.id)) continue;
    const before = edited.steps.slice(0, edited.steps.indexOf(step)).findLast(({ id }) => place(steps, id) >= 0);
    steps.splice(before ? place(steps, before.id) + 1 : 0, 0, { ...step, retired: true });
  }
  const stepIds = new Set(steps.map(({ id }) => id));
  const facts: EyeFact[] = shipped.facts.map((fact) => {
    const own = edited.facts.find(({ id }) => id === fact.id);
    // Answers of another kind would mean nothing under the shipped fact.
    if (own && own.kind !== fact.kind && use.facts.has(fact.id)) return own;
    const levels = added(own?.levels ?? [], fact.levels ?? [], (id) => use.answers.has(`${fact.id}/${id}`));
    return levels.length > 0 && fact.levels ? { ...fact, levels: [...fact.levels, ...freeKeys(levels, fact)] } : fact;
  });
  return {
    ...shipped,
    // A step of the surgeon's own may name another that is gone.
    steps: steps.map((step) => ({ ...step, earlier: step.earlier.filter((id) => stepIds.has(id)) })),
    facts: [
      ...facts,
      ...added(edited.facts, shipped.facts, (id) => use.facts.has(id)).map(({ key: _, ...fact }) => ({
        ...fact,
        asked: 'file' as const,
      })),
    ],
    waitingReasons: [
      ...shipped.waitingReasons,
      ...added(edited.waitingReasons, shipped.waitingReasons, (id) => use.reasons.has(id)),
    ],
    eventKinds: [...shipped.eventKinds, ...added(edited.eventKinds, shipped.eventKinds, (id) => use.events.has(id))],
  };
}

const place = (all: readonly WithId[], id: string) => all.findIndex((each) => each.id === id);

const KEYS = [...'123456789ABCDEFGHIJKLMNOPQRSTUVWXYZ'];

/** An answer that stays gives up its key where a shipped one needs it. */
function freeKeys(levels: NonNullable<EyeFact['levels']>, fact: EyeFact): NonNullable<EyeFact['levels']> {
  const taken = new Set((fact.levels ?? []).map(({ key }) => key));
  return levels.map((level) => {
    const key = taken.has(level.key) ? (KEYS.find((one) => !taken.has(one)) ?? level.key) : level.key;
    taken.add(key);
    return { ...level, key };
  });
}

/** Do two procedures say the same? The order of what they list matters, empty lists and left-out ones do not. */
export function sameProcedure(one: Procedure, other: Procedure): boolean {
  return text(one) === text(other);
}

const text = (value: unknown): string =>
  JSON.stringify(value, (_, part: unknown) =>
    typeof part === 'object' && part !== null && !Array.isArray(part)
      ? Object.fromEntries(
          Object.entries(part)
            .filter(([, each]) => each !== undefined && !(Array.isArray(each) && each.length === 0))
            .sort(([a], [b]) => (a < b ? -1 : 1)),
        )
      : part,
  );
