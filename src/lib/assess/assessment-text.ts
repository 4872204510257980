import { clock, counted, prose, timesAsLong } from '../format';
import { firstWords, lastingWords, suggestionWords } from '../words';
import { effectRows, saidOfResult } from '../words/reported-result';
import type { Assessed } from './assess';
import type { GoalResult } from './goal-result';

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
  const width = Math.max(...audit.steps.map((step) => step.label.length));
  // Steps are ranked by what is left among the same kind of eye; the interval is of that.
  const apart = audit.steps.some(({ differenceSameEyes }) => differenceSameEyes !== null);
  const rows = audit.steps
    .filter((step) => step.n > 0 && step.median !== null)
    .map((step) =>
      [
        `  ${step.label.padEnd(width)}`,
        String(step.n).padStart(6),
        clock(step.median ?? 0).padStart(7),
        (step.p20 === null ? '' : clock(step.p20)).padStart(7),
        ...(step.difference !== null && step.differenceInterval
          ? [
              `${Math.round(step.difference)} s`.padStart(7),
              ...(apart ? [`${Math.round(step.differenceSameEyes ?? step.difference)} s`.padStart(11)] : []),
              `${Math.round(step.differenceInterval.low)} to ${Math.round(step.differenceInterval.high)}`.padStart(10),
              `  ${audit.enough.enough ? firstWords(step.first.seconds) : ''}`,
            ]
          : [`  ${step.differenceCannot?.because ?? ''}`]),
      ].join(''),
    );
  const labelOf = (stepId: string) => audit.steps.find((step) => step.stepId === stepId)?.label ?? stepId;
  return [
    `${counted(assessment.cases, 'case')}${assessment.lists === null ? ', lists not known' : `, ${counted(assessment.lists, 'list')}`}. Median and 20th percentile (p20) as recorded; ranks adjusted for the eye where facts are recorded.`,
    '',
    head,
    ...sentences,
    '',
    `  ${''.padEnd(width)}${'cases'.padStart(6)}${'median'.padStart(7)}${'p20'.padStart(7)}${'diff.'.padStart(7)}${apart ? 'same eyes'.padStart(11) : ''}${'95 %'.padStart(10)}  most seconds`,
    ...rows,
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
