import type { Goal, SurgeonRecord } from '../../model';
import { capital, inSentence } from '../../format';
import { lastingWords, sinceReasonWords, type FateReason } from '../../words';
import { reportedResult } from '../../words/reported-result';
import { stagedGoal, goalStanding, lastingToRead, lastingWaits, type StagedGoal } from '../goals/goal-standing';
import type { GoalReading } from '../goals/goal-reading';
import { fatesIn, reopenedBecause, sinceRead } from './since-read';
import { REVIEW_DUE } from '../../words/after-twenty';
import { instantWords } from '../forms/when-words';

export type GoalLine = {
  id: string;
  href: string;
  procedureId: string;
  stepId: string;
  step: string;
  when: string;
  said: string;
  /** Its state and how far it has come, for a goal that is not closed. */
  open: { is: string; far: string | null } | null;
  /** The cases its result covers, and the result with whether it lasted; `null` before there is one. */
  result: { cases: number; said: string } | null;
  /** What changed since its result was read, in whole sentences that name no case. */
  since: readonly string[];
  /** The same, counted. */
  counts: readonly FateReason[];
};

/** A goal whose result was read, worked out on today's data. */
export type ReadGoal = { state: GoalReading };

const STATE: Record<Goal['state'], string> = {
  draft: 'a draft, not agreed yet',
  running: 'running',
  paused: 'paused',
  closed: 'closed without a result',
};

const IS: Record<Goal['state'], string> = { draft: 'a draft', running: 'running', paused: 'paused', closed: 'closed' };

/** Every goal in one line, the one set last first: its step, when it was set, its result and whether that lasted. */
export function goalLines(record: SurgeonRecord, readOf: (goal: Goal) => ReadGoal | null): GoalLine[] {
  return [...record.goals].reverse().map((goal) => {
    const { step, stored } = goalStanding(record, goal);
    const latest = stored.at(-1);
    const read = latest ? readOf(goal) : null;
    const last = latest?.lasted?.at(-1)?.lasting;
    const since = read && latest ? sinceRead(read.state, latest) : null;
    const result = latest && {
      cases: latest.windowIds.length,
      said: [
        inSentence(reportedResult(latest.outcome, step.label).head.replace(/\.$/, '')),
        ...(last ? [inSentence(lastingWords(last, step.label).head)] : []),
      ].join('; '),
    };
    const staged = stagedGoal(goal, record);
    return {
      id: goal.id,
      href: `/after-twenty/${goal.id}`,
      procedureId: goal.procedureId,
      stepId: goal.stepId,
      step: step.label,
      when: `set on ${instantWords(goal.setAt)}`,
      said: result ? result.said : STATE[goal.state],
      open: staged && { is: IS[goal.state], far: staged.stage === 'paused' ? null : stageWords(staged) },
      result: result ?? null,
      since: [
        ...(read && reopenedBecause(read.state).length > 0 ? [REVIEW_DUE] : []),
        ...(since?.reasons ?? []).map((reason) => sinceReasonWords(reason, false)),
      ],
      counts: fatesIn(since),
    };
  });
}

/** An open goal beside the most pressing one. */
export const goalInOneLine = (state: StagedGoal): string =>
  `${capital(inSentence(state.step.label))}: ${stageWords(state)}.`;

/** How far an open goal is. */
export function stageWords(goal: StagedGoal): string {
  const { stage, window } = goal;
  switch (stage) {
    case 'window':
      return `${Math.min(window.running.length, window.need.cases)} of ${window.need.cases} counted`;
    case 'following':
      return lastingToRead(goal) > 0 || lastingWaits(goal)
        ? 'a following twenty is complete'
        : `${window.running.length} of the following twenty counted`;
    case 'draft':
      return 'the plan waits for your supervisor';
    case 'full':
      return 'the result can be read';
    case 'deciding':
      return 'the result waits for your decision';
    case 'paused':
      return 'paused';
  }
}
