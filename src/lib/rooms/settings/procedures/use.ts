import type { Case, Event, SurgeonRecord } from '../../../model';

/** What of a procedure the record already rests on: by id, in how many cases. Such things are never deleted. */
export type ProcedureUse = {
  cases: number;
  /** Step id → cases with a timing of it, of any kind. */
  timed: ReadonlyMap<string, number>;
  /** Steps a goal, an event, a note, a reference set or a checkpoint of one's own speaks of. */
  named: ReadonlySet<string>;
  protectedParts: ReadonlyMap<string, number>;
  /** Facts and answers are counted in reference sets too: those would lose their meaning as well. */
  facts: ReadonlyMap<string, number>;
  /** `fact/answer`. */
  answers: ReadonlyMap<string, number>;
  reasons: ReadonlyMap<string, number>;
  events: ReadonlyMap<string, number>;
  hasReferences: boolean;
};

type Source = Pick<SurgeonRecord, 'cases' | 'lists' | 'goals' | 'reflections' | 'references' | 'profile'>;

export function useOf(record: Source, procedureId: string): ProcedureUse {
  const own = record.cases.filter((each) => each.procedureId === procedureId);
  const listIds = new Set(own.map(({ listId }) => listId));
  const untimed = record.lists.filter(({ id }) => listIds.has(id)).flatMap(({ untimedEvents }) => untimedEvents);
  const events = own.map((each) => each.events ?? []);
  const references = record.references.filter((set) => set.procedureId === procedureId).flatMap((set) => set.cases);
  const holders = [...own, ...references];
  return {
    cases: own.length,
    timed: tally(own, ({ stretches }) => stretches.flatMap(({ stepId }) => stepId ?? [])),
    named: namedSteps(record, own, [...events.flat(), ...untimed], procedureId),
    protectedParts: tally(own, (each) => [
      ...Object.keys(each.protectedSeen),
      ...each.stretches.flatMap(({ kind, reason }) => (kind === 'protected' && reason ? reason : [])),
    ]),
    facts: tally(holders, ({ facts }) => Object.keys(facts)),
    answers: tally(holders, ({ facts }) => Object.entries(facts).map(([id, value]) => `${id}/${String(value)}`)),
    reasons: tally(own, ({ stretches }) =>
      stretches.flatMap(({ kind, reason }) => (kind === 'waiting' && reason ? reason : [])),
    ),
    events: tally([...events, ...untimed.map((event) => [event])], (some) => some.map(({ kind }) => kind)),
    hasReferences: references.length > 0,
  };
}

/** In how many of these does each id stand? */
function tally<T>(all: readonly T[], idsOf: (one: T) => readonly string[]): Map<string, number> {
  const counts = new Map<string, number>();
  for (const one of all) for (const id of new Set(idsOf(one))) counts.set(id, (counts.get(id) ?? 0) + 1);
  return counts;
}

function namedSteps(record: Source, own: readonly Case[], events: readonly Event[], procedureId: string): Set<string> {
  const ids = new Set(own.map(({ id }) => id));
  const goals = record.goals.filter((goal) => goal.procedureId === procedureId);
  const goalIds = new Set(goals.map(({ id }) => id));
  const notes = record.reflections.filter(
    ({ goalId, caseIds }) => (goalId !== null && goalIds.has(goalId)) || caseIds.some((id) => ids.has(id)),
  );
  return new Set(
    [
      ...goals.map(({ stepId }) => stepId),
      ...events.map(({ stepId }) => stepId),
      ...notes.map(({ stepId }) => stepId),
      ...own.flatMap(({ hands, returnsNoted }) => [...Object.keys(hands.steps), ...Object.keys(returnsNoted)]),
      ...record.references
        .filter((set) => set.procedureId === procedureId)
        .flatMap((set) => set.cases.flatMap(({ stepSeconds }) => Object.keys(stepSeconds))),
      ...record.profile.ownCheckpoints.filter((one) => one.procedureId === procedureId).map(({ stepId }) => stepId),
    ].filter((id) => id !== null),
  );
}
