import type { Outcome } from '../../model';
import { effectReading } from '../../words/after-twenty';
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
    reading: effectReading(rows.some(({ bold }) => bold) && outcome.kind !== 'paused'),
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
