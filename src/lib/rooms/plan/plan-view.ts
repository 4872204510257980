import type { StartedGoal } from '../../practice';
import type { Goal, Measure, OwnCheckpoint, Procedure, Step } from '../../model';
import type { Guidance, PlanDraft } from '../../rules/types';
import { counted, inSentence, listed, prose, timesInTen } from '../../format';
import { powerWords } from '../../words';

export type PlanView = {
  step: { id: string; label: string };
  procedureId: string;
  /** Why this step, in words with their numbers. */
  because: readonly string[];
  earlierFirst: readonly { label: string; href: string; because: string }[];
  checkpoints: readonly { id: string; look: string; why: string; because: string | null; chosen: boolean }[];
  measures: readonly { id: Measure; label: string; hint: string; chosen: boolean }[];
  /** Why time or steadiness cannot be measured yet; `null` when they can, or are not offered. */
  cannotMeasure: string | null;
  watch: readonly { id: string; label: string; chosen: boolean }[];
  watchLead: string | null;
  start: readonly string[];
  expected: string | null;
  power: readonly string[];
  windowLength: 20 | 40;
  stop: readonly string[];
  reminders: readonly string[];
  drills: readonly { where: string; minutes: number; do: string; passed: string; because: string }[];
  supervisor: string | null;
  chosenBy: Goal['chosenBy'];
  reason: string | null;
  others: string | null;
};

export type PlanSource = {
  procedure: Procedure;
  step: Step;
  draft: PlanDraft;
  guidance: Guidance | null;
  ownCheckpoints: readonly OwnCheckpoint[];
  /** What starting today would fix; or why time cannot be measured. */
  started: StartedGoal | { kind: 'cannot'; because: string };
  codes: ReadonlyMap<string, string>;
  supervisor: string | null;
  chosenBy: Goal['chosenBy'];
  reason: string | null;
  /** Other goals that run. */
  running: readonly string[];
  query: string;
};

const MEASURES: Record<Measure, { label: string; hint: string }> = {
  time: {
    label: 'Time',
    hint: 'Does this step take less time than the rest of the same operations would lead you to expect?',
  },
  steadiness: {
    label: 'Steadiness',
    hint: 'Does this step vary less from case to case? Forty cases are the usual length for it.',
  },
  checkpoints: { label: 'Checkpoints', hint: 'What you did is the result. No change in time is claimed.' },
  safety: { label: 'Safety', hint: 'Events and kept parts. This goal has no time.' },
};

/** What can be looked for in a step: the page's checkpoints in the order the rules chose them, then the surgeon's own. */
export function offeredCheckpoints(
  source: Pick<PlanSource, 'draft' | 'guidance' | 'ownCheckpoints' | 'procedure' | 'step'>,
) {
  const { draft, guidance, ownCheckpoints, procedure, step } = source;
  const chosen = draft.checkpoints.map(({ id, look, why, sentence }) => ({
    id,
    look,
    why,
    because: sentence,
    chosen: true,
  }));
  const others = (guidance?.checkpoints ?? [])
    .filter(({ id }) => !chosen.some((each) => each.id === id))
    .map(({ id, look, why }) => ({ id, look, why, because: null, chosen: false }));
  const own = ownCheckpoints
    .filter((each) => each.procedureId === procedure.id && each.stepId === step.id)
    .filter(({ id }) => !chosen.some((each) => each.id === id))
    .map(({ id, look }) => ({ id, look, why: 'Your own checkpoint.', because: null, chosen: false }));
  return [...chosen, ...others, ...own];
}

/** The plan page of a step: what the rules draw up, what starting today would fix, and what twenty cases can show. */
export function planView(source: PlanSource): PlanView {
  const { procedure, step, draft, started } = source;
  const judged = started.kind === 'start' && draft.measures.some((each) => each === 'time' || each === 'steadiness');
  const offered = draft.measures.filter(
    (each) => started.kind === 'start' || each === 'checkpoints' || each === 'safety',
  );
  const first = offered[0];
  // One reason for everything stands at the top of the page; only where there are several is each named beside what it gave.
  const told = (sentence: string) =>
    draft.because.length === 1 && draft.because[0]?.sentence === sentence ? null : sentence;
  const labelOf = (id: string) => procedure.steps.find((each) => each.id === id)?.label ?? id;
  return {
    step: { id: step.id, label: step.label },
    procedureId: procedure.id,
    because: draft.because.map(({ sentence }) => sentence),
    earlierFirst: draft.earlierFirst.map(({ stepId, because }) => ({
      label: labelOf(stepId),
      href: `/choose/${stepId}${source.query}`,
      because,
    })),
    checkpoints: offeredCheckpoints(source).map((each) => ({ ...each, because: each.because && told(each.because) })),
    measures: offered.map((id) => ({ id, ...MEASURES[id], chosen: id === first })),
    cannotMeasure: started.kind === 'cannot' ? started.because : null,
    watch: step.protectedParts.map(({ id, label }) => ({ id, label, chosen: draft.watch.includes(id) })),
    watchLead:
      step.protectedParts.length > 0
        ? 'These are never shortened and stand outside step time. A time goal needs at least one of them to watch: if it is seen less often, the result pauses.'
        : null,
    start: started.kind === 'start' ? startSentences(started, source.codes) : [],
    expected:
      judged && started.kind === 'start' && started.expectedRange
        ? `Expected range: ${prose(started.expectedRange.low)} to ${prose(started.expectedRange.high)}, adjusted for the eye. It stands on this page only. It is not for the theatre, and no case needs to reach it.`
        : null,
    power: started.kind === 'start' && started.power ? powerSentences(started.power) : [],
    windowLength: first === 'steadiness' ? 40 : 20,
    stop: draft.stop,
    reminders: draft.reminders,
    drills: draft.drills.map((drill) => ({ ...drill, because: told(drill.because) ?? '' })),
    supervisor: source.supervisor,
    chosenBy: source.chosenBy,
    reason: source.reason,
    others:
      source.running.length > 0
        ? `${source.running.length === 1 ? 'A goal' : 'Goals'} on ${listed(source.running.map(inSentence))} ${source.running.length === 1 ? 'is' : 'are'} running. A step under a goal does not count as the rest of the operation for another.`
        : null,
  };
}

function startSentences(started: StartedGoal, codes: ReadonlyMap<string, string>): string[] {
  const { caseIds } = started.baseline;
  const [first, last] = [caseIds[0], caseIds[caseIds.length - 1]].map((id) => (id ? (codes.get(id) ?? id) : ''));
  const lists = started.lists === null ? '' : `, from ${counted(started.lists, 'list')}`;
  return [
    caseIds.length === 0
      ? 'No case counts yet: the goal starts from nothing.'
      : `${counted(caseIds.length, 'baseline case')}${lists}: first ${first}, latest ${last}. They are fixed the moment you set the goal; what you change in them later is shown, and never moves a result by itself.`,
    ...started.said,
  ];
}

/** What twenty cases can show; in tenths with a range, or in three words where the start is short. */
function powerSentences({ steer, fifth, tenth, coarse }: NonNullable<StartedGoal['power']>): string[] {
  if (coarse)
    return [
      `With fewer than 40 baseline cases this can only be said roughly. If the step became a fifth shorter, twenty cases showing it is ${fifth.twenty.word}, forty ${fifth.forty.word}; a tenth: ${tenth.twenty.word}. So "no clear change" will be common, even when something did change. You will have your own account of what you did in any case.`,
    ];
  const inTen = ({ low, high }: { low: number; high: number }) =>
    `${Math.round(low * 10)} to ${Math.round(high * 10)} times in 10`;
  return [
    powerWords({ twenty: fifth.twenty.chance, forty: fifth.forty.chance }, { twenty: tenth.twenty.chance }),
    `These chances are themselves not sharp: for a fifth in twenty cases, ${inTen(fifth.twenty)}.`,
    ...(steer
      ? [
          `Reaching the lower end of the expected range would be seen in twenty cases ${timesInTen(steer.twenty.chance)}, in forty ${timesInTen(steer.forty.chance)}.`,
        ]
      : []),
  ];
}
