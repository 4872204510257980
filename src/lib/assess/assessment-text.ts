import { lastingWords, suggestionWords } from '../words';
import {
  AFTER_SURGERY,
  assessedWords,
  noResultWords,
  noResultYetWords,
  ORDER_GUESSED,
  PATTERNS_LEAD,
  patternWords,
  waitingWords,
} from '../words/assessment';
import { effectRows, saidOfResult } from '../words/reported-result';
import type { Assessed } from './assess';
import type { GoalResult } from './goal-result';
import { stepTable } from './step-table';

/** The same in words, as Choose says it: for a terminal. */
export function assessmentText({
  assessment,
  audit,
  suggestion,
  goal,
  compare,
  safety,
  said,
}: Extract<Assessed, { kind: 'assessed' }>): string {
  const { head, sentences } = suggestionWords(audit, suggestion);
  const labelOf = (stepId: string) => audit.steps.find((step) => step.stepId === stepId)?.label ?? stepId;
  return [
    assessedWords(assessment),
    '',
    head,
    ...sentences,
    '',
    ...stepTable(audit),
    ...(audit.patterns.some((each) => each.shown)
      ? [
          '',
          PATTERNS_LEAD,
          ...audit.patterns.filter((each) => each.shown).map((each) => `  ${patternWords(labelOf(each.stepId), each)}`),
        ]
      : []),
    ...(audit.waiting.perCase > 5 ? ['', waitingWords(audit.waiting.perCase)] : []),
    ...(said.length > 0 ? ['', ...said] : []),
    '',
    [safety.head, ...safety.sentences].join(' '),
    ...(goal ? ['', ...goalText(goal)] : []),
    ...(compare
      ? [
          '',
          compare.words.head,
          ...compare.words.sentences,
          ...compare.rows,
          ...compare.words.doesNotSay.map((sentence, at) => (at === 0 ? `Does not say: ${sentence}` : sentence)),
        ]
      : []),
    '',
    AFTER_SURGERY,
  ].join('\n');
}

/** The result as After twenty says it, never a bare verdict. */
function goalText(goal: GoalResult): string[] {
  if (goal.kind === 'none') return [`No result: ${noResultWords(goal.why)}`];
  if (goal.kind === 'running') return [noResultYetWords(goal.label, goal.far)];
  const { outcome, lasting, label, safety } = goal;
  const { head, sentences, doesNotSay, beside } = saidOfResult(outcome, label);
  return [
    `${label}. ${head}`,
    ...sentences,
    ...beside,
    ...(goal.json.notes.includes('order-guessed') ? [ORDER_GUESSED] : []),
    ...effectRows(outcome).map((row) => `  ${row.label}: ${row.words}; ${row.under}`),
    ...(doesNotSay ? [`Does not say ${doesNotSay}`] : []),
    ...lasting.map((each) => {
      const said = lastingWords(each, label);
      return `${said.head}. ${said.sentence}`;
    }),
    `Safety in these cases: ${[safety.head, ...safety.sentences].join(' ')}`,
  ];
}
