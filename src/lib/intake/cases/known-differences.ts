import type { Case, FactValue, Hands, NewCase, Procedure } from '../../model';

export type Difference = { what: string; before: string; after: string };

/** Ids in the words of the procedure; an id it does not know stands for itself. */
export type Names = {
  step: (id: string) => string;
  fact: (id: string) => string;
  value: (id: string, value: FactValue) => string;
  part: (id: string) => string;
  event: (id: string) => string;
};

const itself = (id: string) => id;
export const plainNames: Names = {
  step: itself,
  fact: itself,
  value: (_, value) => String(value),
  part: itself,
  event: itself,
};

const HANDS: Record<Hands, string> = {
  mine: 'mine',
  'someone-else': 'someone else',
  'taken-over': 'taken over',
  shared: 'shared',
};

export function namesOf({ steps, facts, eventKinds }: Procedure): Names {
  const labels = (items: readonly { id: string; label: string }[]) => {
    const byId = new Map(items.map(({ id, label }) => [id, label]));
    return (id: string) => byId.get(id) ?? id;
  };
  const levels = new Map(facts.map((fact) => [fact.id, labels(fact.levels ?? [])]));
  return {
    step: labels(steps),
    fact: labels(facts),
    value: (id, value) =>
      typeof value === 'boolean' ? (value ? 'yes' : 'no') : (levels.get(id)?.(String(value)) ?? String(value)),
    part: labels(steps.flatMap(({ protectedParts }) => protectedParts)),
    event: labels([...eventKinds, { id: 'other', label: 'something else' }]),
  };
}

/** What would differ, old beside new, in the words of the procedure. */
export function differencesOf(before: Case, after: NewCase, names: Names): Difference[] {
  const handSteps = Object.keys({ ...before.hands.steps, ...after.hands.steps });
  const parts = (one: Case | NewCase): Map<string, string> =>
    new Map([
      ['procedure', one.procedureId],
      ...stepLengths(one, names),
      ...Object.entries(one.facts).map(([id, value]) => [names.fact(id), names.value(id, value)] as const),
      ...Object.entries(one.protectedSeen).map(
        ([id, seen]) => [`seen: ${names.part(id)}`, seen ? 'yes' : 'no'] as const,
      ),
      ...handSteps.map((id) => [`hands, ${names.step(id)}`, HANDS[one.hands.steps[id] ?? one.hands.whole]] as const),
      ['hands', HANDS[one.hands.whole]],
      [
        'events',
        one.events === null
          ? 'not answered'
          : one.events
              .map(({ kind, stepId }) =>
                [names.event(kind), ...(stepId === null ? [] : [names.step(stepId)])].join(', '),
              )
              .join('; ') || 'none',
      ],
    ]);
  const [old, new_] = [parts(before), parts(after)];
  return [...new Set([...old.keys(), ...new_.keys()])].flatMap((what) => {
    const [from, to] = [old.get(what), new_.get(what)];
    return from === to ? [] : [{ what, before: from ?? 'not entered', after: to ?? 'not entered' }];
  });
}

function stepLengths({ stretches }: Pick<Case, 'stretches'>, names: Names): [string, string][] {
  const lengths = new Map<string, number[]>();
  for (const { stepId, kind, seconds } of stretches) {
    const key = [stepId === null ? 'between steps' : names.step(stepId), ...(kind === 'step' ? [] : [kind])].join(', ');
    lengths.set(key, [...(lengths.get(key) ?? []), seconds]);
  }
  return [...lengths].map(([key, seconds]) => [key, seconds.map((one) => `${one} s`).join(' + ')]);
}
