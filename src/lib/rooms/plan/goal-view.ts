import { type Goal, type Measure, procedureOf, type SurgeonRecord } from '../../model';
import { aimedLabel, counted, inSentence } from '../../format';
import { instantWords } from '../forms/when-words';
import { agreementLines, agreementOf } from '../mentor/agreement';

export type GoalView = {
  id: string;
  step: string;
  lead: string;
  draft: boolean;
  rows: readonly { label: string; lines: readonly string[] }[];
};

const MEASURE: Record<Measure, string> = {
  time: 'time, against the rest of the same operations',
  steadiness: 'steadiness: how much the step varies',
  checkpoints: 'the checkpoints: what was done is the result',
  safety: 'safety: events and protected parts; no time',
};

const CHOSEN: Record<Goal['chosenBy'], string> = {
  seconds: 'Chosen on the view of most seconds.',
  spread: 'Chosen on the view of what varies most.',
  reference: 'Chosen on the view against the reference set.',
  eyes: 'Chosen because it takes longer in certain eyes.',
  safety: 'Safety first.',
  own: 'A reason from outside the record, given before looking at it.',
};

const STATE: Record<Goal['state'], string> = {
  draft: 'A draft: not agreed yet. Off-patient drills only, and no case counts.',
  running: 'Running.',
  paused: 'Paused.',
  closed: 'Closed.',
};

/** A goal as it was set: words only, so that it can be read on any day; the expected range stays on the plan page. */
export function goalView(goal: Goal, record: SurgeonRecord): GoalView {
  const procedure = procedureOf(record, goal.procedureId);
  const step = procedure.steps.find(({ id }) => id === goal.stepId);
  const { caseIds } = goal.baseline;
  const codes = caseIds.flatMap((id) => record.cases.find((each) => each.id === id)?.code ?? []);
  const erased = caseIds.length - codes.length;
  const kept = procedure.steps
    .flatMap(({ protectedParts }) => protectedParts)
    .filter(({ id }) => goal.watch.includes(id));
  const rows: { label: string; lines: readonly string[] }[] = [
    { label: 'Checkpoints', lines: goal.checkpoints.map(({ look }) => look) },
    { label: 'If … then …', lines: goal.ifThen ? [goal.ifThen] : [] },
    { label: 'Aimed at', lines: goal.eyes ? [`eyes with ${goal.eyes.label}: no other case counts`] : [] },
    { label: 'Measured', lines: [MEASURE[goal.measure]] },
    { label: 'Never shortened, and watched', lines: kept.map(({ label }) => label) },
    { label: 'Stop when', lines: goal.stopSigns },
    {
      label: 'Baseline cases',
      lines: [
        caseIds.length === 0
          ? 'none'
          : `${counted(caseIds.length, 'case')}${codes.length > 0 ? `, first ${codes[0]}, latest ${codes[codes.length - 1]}` : ''}, fixed on ${instantWords(goal.setAt)}${erased > 0 ? `; ${erased} since erased` : ''}`,
      ],
    },
    {
      label: 'Window',
      lines: [`the next ${goal.windowLength === 40 ? 'forty' : 'twenty'} counted cases, from the next new list on`],
    },
    { label: 'Why this step', lines: [CHOSEN[goal.chosenBy], ...(goal.reason ? [goal.reason] : [])] },
    {
      label: 'Agreed with the supervisor',
      lines: [
        { yes: 'yes', 'not-yet': 'not yet', none: goal.agreed.why ? `no supervisor: ${goal.agreed.why}` : 'not asked' }[
          goal.agreed.answer
        ],
      ],
    },
    { label: 'Seen by two', lines: agreementLines(agreementOf(goal)) },
  ];
  return {
    id: goal.id,
    step: aimedLabel(step?.label ?? inSentence(goal.stepId), goal.eyes),
    lead: `Set on ${instantWords(goal.setAt)}${goal.agreedAt ? `, agreed on ${instantWords(goal.agreedAt)}` : ''}. ${STATE[goal.state]}`,
    draft: goal.state === 'draft',
    rows: rows.filter(({ lines }) => lines.length > 0),
  };
}
