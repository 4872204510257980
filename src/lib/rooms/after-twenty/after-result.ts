import type { GoalWindow } from '../../practice';
import type { Lasting, Outcome } from '../../model';
import { lessOrMore } from '../../format';
import { effectRows, saidOfResult, type EffectRow, type ResultWordsView } from '../../words/reported-result';

type HowMade = 'result' | 'steadier' | 'error-rates' | 'monitor';

export type ResultView = ResultWordsView & {
  when: string;
  /** For an earlier look: what has become of its cases since. For the latest, this is shown beside today's figure. */
  since: readonly string[];
  /** The change with its interval, a row a comparison, and how to read the drawing of it. */
  rows: readonly EffectRow[];
  reading: string;
  table: { columns: { label: string; method?: HowMade }[]; rows: string[][] };
  /** The pages on how its numbers are made. */
  how: readonly HowMade[];
};

/** A result in words, as rows and as a table; `when`: when it was read; `since`: what became of its cases. */
export function resultView(outcome: Outcome, label: string, when: string, since: readonly string[] = []): ResultView {
  const rows = effectRows(outcome);
  const steadiness = outcome.measure === 'steadiness';
  const method = steadiness ? 'steadier' : 'result';
  return {
    ...saidOfResult(outcome, label),
    when,
    since,
    rows,
    reading: [
      'Left of 100 is less than at the start, right of it more.',
      ...(rows.some(({ bold }) => bold) && outcome.kind !== 'paused' ? ['The result rests on the row in bold.'] : []),
    ].join(' '),
    table: {
      columns: [{ label: 'Compared' }, { label: 'Change (95 %)', method }, { label: 'Cases' }],
      rows: rows.map((row) => [row.label, row.words, row.under]),
    },
    how: howOf(outcome),
  };
}

function howOf({ kind, measure }: Outcome): HowMade[] {
  if (kind === 'paused') return ['monitor'];
  if (measure === 'checkpoints' || measure === 'safety') return [];
  return measure === 'steadiness' ? ['steadier', 'result', 'error-rates'] : ['result', 'error-rates'];
}

/** The title of the drawing says what it shows. */
export function chartTitle(
  label: string,
  outcome: Outcome | null,
  window: Pick<GoalWindow, 'need'>,
  lasting: readonly Lasting[],
): string {
  const twenty = window.need.cases === 40 ? 'the next forty' : 'the next twenty';
  if (!outcome || outcome.kind === 'paused' || outcome.cannot) return `${label}: the baseline cases and ${twenty}.`;
  const judged = outcome.against ?? outcome.plain;
  const figure = judged ? lessOrMore(Math.exp(judged.estimate)) : '';
  const last = lasting[lasting.length - 1];
  const after = last
    ? {
        lasted: ', and it lasted',
        faded: ', and it faded',
        partly: ', and part of it lasted',
        'not-clear': ', and whether it lasted is not clear yet',
      }[last.kind]
    : '';
  switch (outcome.kind) {
    case 'shorter':
      return `${label}: about ${figure} time in ${twenty}${after}.`;
    case 'longer':
      return `${label}: about ${figure} time in ${twenty}.`;
    case 'steadier':
      return `${label}: steadier in ${twenty}.`;
    case 'all-round':
      return `${label}: shorter all round in ${twenty}.`;
    default:
      return `${label}: no clear change in ${twenty}.`;
  }
}
