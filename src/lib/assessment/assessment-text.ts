import { clock, counted, firstWords, prose, suggestionWords } from '../words';
import type { Assessed } from './assess';

/** The same in words, as Choose says it: for a terminal. */
export function assessmentText({ assessment, audit, suggestion }: Extract<Assessed, { kind: 'assessed' }>): string {
  const { head, sentences } = suggestionWords(audit, suggestion);
  const width = Math.max(...audit.steps.map((step) => step.label.length));
  const rows = audit.steps
    .filter((step) => step.n > 0 && step.usual !== null)
    .map((step) =>
      [
        `  ${step.label.padEnd(width)}`,
        clock(step.usual ?? 0).padStart(7),
        (step.oneInFive === null ? '' : clock(step.oneInFive)).padStart(7),
        (step.difference === null ? '' : `${Math.round(step.difference)} s`).padStart(7),
        (step.differenceInterval
          ? `${Math.round(step.differenceInterval.low)} to ${Math.round(step.differenceInterval.high)}`
          : ''
        ).padStart(10),
        `  ${firstWords(step.first.seconds)}`,
      ].join(''),
    );
  const labelOf = (stepId: string) => audit.steps.find((step) => step.stepId === stepId)?.label ?? stepId;
  const result = assessment.result;
  return [
    `${counted(assessment.cases, 'case')}${assessment.lists === null ? ', lists not known' : `, ${counted(assessment.lists, 'list')}`}. Times adjusted for the eye where facts are recorded.`,
    '',
    head,
    ...sentences,
    '',
    `  ${''.padEnd(width)}${'usual'.padStart(7)}${'1 in 5'.padStart(7)}${'diff.'.padStart(7)}${'95 %'.padStart(10)}  most seconds`,
    ...rows,
    ...(audit.patterns.some((each) => each.shown)
      ? [
          '',
          'Goes with longer times (not caused by):',
          ...audit.patterns
            .filter((each) => each.shown)
            .map(
              (each) =>
                `  ${labelOf(each.stepId)}: ${each.label} (${each.nWith} cases): about ${each.ratio.toFixed(1)} times (${each.low.toFixed(1)} to ${each.high.toFixed(1)})`,
            ),
        ]
      : []),
    ...(audit.waiting.perCase > 5
      ? ['', `Waiting: ${prose(audit.waiting.perCase)} a case. Part of it is checking.`]
      : []),
    ...(result === undefined
      ? []
      : [
          '',
          result === null
            ? 'No result: the case is not in the file, or too few cases lie before it.'
            : `Result for ${result.step}: ${result.kind}.`,
        ]),
    '',
    'Use after surgery, never in theatre. A shorter time is not a better operation.',
  ].join('\n');
}
