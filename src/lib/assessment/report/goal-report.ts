import type { Goal, Lasting, StoredResult } from '../../model';
import { capital, counted, lastingWords, resultWords } from '../../words';
import { doneRows } from '../done-cells';
import type { GoalState } from '../goal-state';
import { monthOf, safetyOfGoal, ticked } from './parts';
import { FOOTNOTES, type ReportRecord, type ReportView } from './report';

const CHOSEN: Record<Goal['chosenBy'], string> = {
  seconds: 'Chosen on the view of most seconds: between usual and shorter cases.',
  spread: 'Chosen on the view of what varies most.',
  reference: 'Chosen on the view against a reference set of other surgeons, without names.',
  safety: 'A safety goal: no time is measured.',
  own: 'Chosen for a reason from outside the record, given before the times were looked at.',
};

/** The report on one goal: what was chosen and why, what was done, the result, safety, reflections. */
export function goalReport(
  state: GoalState,
  record: ReportRecord,
  noteIds: readonly string[],
  lasting: readonly Lasting[],
): ReportView {
  const { goal, procedure, step, stored, window, windowCases } = state;
  const result = stored[stored.length - 1] ?? null;
  const safety = safetyOfGoal(state.spanCases, goal, record);
  const mine = record.reflections.filter((each) => each.goalId === goal.id);
  return {
    title: `${capital(step.label)}: one practice goal`,
    period: `From ${monthOf(goal.setAt)}${result ? ` to ${monthOf(result.storedAt)}` : ', under way'}`,
    sections: [
      {
        heading: 'What was chosen, and why',
        lines: [
          `${CHOSEN[goal.chosenBy]}${goal.reason ? ` ${goal.reason}` : ''}`,
          `${counted(goal.start.caseIds.length, 'starting case')}, fixed on the day the goal was set; measure: ${goal.measure}.`,
          ...agreedLine(goal),
        ],
      },
      {
        heading: 'What was done',
        lines: [
          ...doneRows(goal, windowCases, record.reflections, procedure).map(({ label, words }) =>
            words ? `${label} (${words})` : label,
          ),
          "By the surgeon's own account, after review.",
        ],
      },
      { heading: 'Result', ...resultSection(state, record, lasting) },
      safety.section,
      ...(window.leftOut.ids.length > 0
        ? [
            {
              heading: 'Left out',
              lines: [`Before times were seen: ${window.leftOut.before}. After: ${window.leftOut.after}.`],
            },
          ]
        : []),
    ],
    notes: ticked(mine, noteIds),
    footnotes: FOOTNOTES,
    cautions: record.cautions,
    figures: [...figuresOf(result, lasting), ...safety.figures],
  };
}

/** Nothing where it was not asked: no answer is not "no supervisor". */
function agreedLine({ agreed }: GoalState['goal']): string[] {
  if (agreed.answer === 'none' && agreed.why === null) return [];
  return [`Agreed with the supervisor: ${{ yes: 'yes', 'not-yet': 'not yet', none: 'no supervisor' }[agreed.answer]}.`];
}

function resultSection(
  { goal, step, stored, waitsForReview, gate }: GoalState,
  record: ReportRecord,
  lasting: readonly Lasting[],
): { strong: string; lines: string[] } {
  const result = stored[stored.length - 1];
  const decided = goal.decisions.map(
    ({ at, kind, reason }) => `Decided in ${monthOf(at)}: ${kind.replace('-', ' ')}${reason ? `. ${reason}` : ''}`,
  );
  if (!result)
    return {
      strong: waitsForReview
        ? 'Paused for safety review: a serious event in these cases has not been reviewed yet.'
        : 'No result yet: the twenty are not full.',
      lines: decided,
    };
  const words = resultWords(result.outcome, {
    stepLabel: step.label,
    falsePerHundred: record.falsePerHundred,
    pausedBy: null,
  });
  // As on After twenty: lasting quotes the first figure that was read, not the joint model's slightly other one.
  const first = result.outcome.against?.estimate;
  return {
    strong: `${words.head}.`,
    lines: [
      ...(result.outcome.kind !== 'paused' && gate && !gate.open
        ? [`Since this result was read: ${gate.because.join(' ')}`]
        : []),
      ...words.sentences,
      ...words.beside,
      `Does not say ${words.doesNotSay}`,
      ...lasting.map((each) => {
        const said = lastingWords({ ...each, firstEstimate: first ?? each.firstEstimate }, step.label);
        return `${said.head}. ${said.sentence}`;
      }),
      ...decided,
    ],
  };
}

function figuresOf(result: StoredResult | null, lasting: readonly Lasting[]): ReportView['figures'] {
  if (!result) return [];
  const ratio = (name: string, effect: StoredResult['outcome']['plain']) =>
    effect
      ? [
          {
            name,
            value: Math.exp(effect.estimate),
            low: Math.exp(effect.low),
            high: Math.exp(effect.high),
            n: effect.nWindow,
            unit: 'ratio of window to start',
          },
        ]
      : [];
  return [
    ...ratio('against the rest of the operation', result.outcome.against),
    ...ratio('this step alone', result.outcome.plain),
    ...ratio('the rest of the operation', result.outcome.rest),
    ...ratio('spread', result.outcome.spread),
    ...lasting.flatMap((each) => ratio(`following twenty ${each.nth}`, each.effect)),
  ];
}
