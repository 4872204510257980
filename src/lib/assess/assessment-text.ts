import { counted, prose, timesAsLong } from '../format';
import { lastingWords, suggestionWords } from '../words';
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
    `${counted(assessment.cases, 'case')}${assessment.lists === null ? ', lists not known' : `, ${counted(assessment.lists, 'list')}`}. Median and 20th percentile (p20) as recorded; ranks adjusted for the eye where facts are recorded.`,
    '',
    head,
    ...sentences,
    '',
    ...stepTable(audit),
    ...(audit.patterns.some((each) => each.shown)
      ? [
          '',
          'Goes with a longer or a shorter time (not caused by):',
          ...audit.patterns
            .filter((each) => each.shown)
            .map((each) => {
              const { ratio, low, high } = timesAsLong(each);
              return `  ${labelOf(each.stepId)}: ${each.label} (${each.nWith} cases, ${each.nWithout} without): about ${ratio} times as long (${low} to ${high})`;
            }),
        ]
      : []),
    ...(audit.waiting.perCase > 5
      ? ['', `Waiting: ${prose(audit.waiting.perCase)} a case. Part of it is checking.`]
      : []),
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
    'Use after surgery, never in theatre. A shorter time is not a better operation.',
  ].join('\n');
}

const ORDER_GUESSED =
  'Which way the rows run was guessed. Before and after rest on it: say it with --answer "order=oldest-first" or "order=newest-first".';

/** The result as After twenty says it, never a bare verdict. */
function goalText(goal: GoalResult): string[] {
  if (goal.kind === 'none') return [`No result: ${goal.because}`];
  if (goal.kind === 'running') return [`${goal.label}: no result yet. ${goal.far} One is said when they are full.`];
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
