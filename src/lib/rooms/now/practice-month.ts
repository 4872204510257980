import { pairOf, twoToWatch } from '../../audit';
import { counted, inSentence } from '../../format';
import type { SurgeonRecord } from '../../model';
import { casesWithIds } from '../../practice';
import { drillsFor, LOOK_AT_PARTS, monthWeekOf, type Guidance, type MonthPart } from '../../rules';
import { loggedWords, partSeenWords } from '../../words';
import { withProtectedSeen } from '../after-twenty/done-cells';
import { hiddenCaseIds } from '../goals/hidden-times';
import { type StagedGoal } from '../goals/goal-standing';

export type DrillView = {
  id: string;
  where: string;
  do: string;
  passed: string;
  logged: string;
  /** How many entries the page has seen: a tap that arrives twice is one. */
  seen: number;
  /** The latest entry, to be undone; `null`: none. */
  latest: string | null;
};

/** The practice month of a running goal, in its three parts; the one it is in now is marked. No time of any operation. */
export type PracticeMonth = {
  goalId: string;
  step: string;
  /** Since the goal was set, or since its draft was agreed, from 1. */
  week: number;
  now: MonthPart;
  /** `pair`: is there one to be watched? */
  watch: { pair: boolean; href: string; ifThen: string | null };
  drill: DrillView;
  otherDrills: readonly DrillView[];
  lists: { lead: string; parts: readonly string[] };
  mentor: string;
};

/** `null`: no goal whose first window is filling, so there is no month to be in. */
export function practiceMonth(
  state: StagedGoal | undefined,
  record: SurgeonRecord,
  guidance: Guidance | null,
  now: string,
): PracticeMonth | null {
  if (!state || state.stage !== 'window') return null;
  const { goal } = state;
  const [first, ...others] = drillsFor(goal, guidance, recordingsOf(state, record));
  const log = goal.drillLog ?? [];
  const { week, part } = monthWeekOf(goal, now);
  const view = ({ id, where, do: does, passed }: typeof first): DrillView => {
    const own = log.filter(({ drillId }) => drillId === id);
    return {
      id,
      where,
      do: does,
      passed,
      logged: loggedWords(own.length),
      seen: own.length,
      latest: own.at(-1)?.at ?? null,
    };
  };
  return {
    goalId: goal.id,
    step: inSentence(state.step.label),
    week,
    now: part,
    watch: {
      pair: hasPair(state, record),
      href: `/choose/${goal.stepId}?${new URLSearchParams({ procedure: goal.procedureId })}#pair`,
      ifThen: goal.ifThen,
    },
    drill: view(first),
    otherDrills: others.map(view),
    lists: listsPart(state, record),
    mentor: `/after-twenty/${goal.id}/mentor`,
  };
}

/** Are there two recordings of the step to watch? Drills at the screen need them. */
export const recordingsOf = ({ goal }: StagedGoal, { cases }: SurgeonRecord): boolean =>
  twoToWatch(cases.filter(({ procedureId }) => procedureId === goal.procedureId));

/** Whether the page of the step has a pair; cases whose times are hidden are never one of it. */
function hasPair({ goal, procedure }: StagedGoal, record: SurgeonRecord): boolean {
  const hidden = hiddenCaseIds(record);
  const cases = record.cases.filter(({ id }) => !hidden.has(id));
  return pairOf({ cases, lists: record.lists, procedure, stepId: goal.stepId }).kind === 'pair';
}

/** At ten counted cases: how often each watched part was seen, so far. It is safety, and hidden by no window. */
function listsPart({ goal, procedure, window }: StagedGoal, record: SurgeonRecord): PracticeMonth['lists'] {
  const watched = procedure.steps
    .flatMap(({ protectedParts }) => protectedParts)
    .filter(({ id }) => goal.watch.includes(id));
  const count = window.running.length;
  if (watched.length === 0) return { lead: 'This goal watches no protected part.', parts: [] };
  if (count < LOOK_AT_PARTS)
    return { lead: `At ${LOOK_AT_PARTS} counted cases, a look at the protected parts; ${count} so far.`, parts: [] };
  const cases = withProtectedSeen(casesWithIds(record.cases, window.running), record.reflections);
  return {
    lead: `The protected parts in the ${counted(count, 'case')} counted so far:`,
    parts: watched.map(({ id, label }) => {
      const looked = cases.filter(({ protectedSeen }) => protectedSeen[id] !== undefined);
      return partSeenWords(label, looked.filter(({ protectedSeen }) => protectedSeen[id]).length, looked.length, count);
    }),
  };
}
