import type { Procedure } from '../../model';
import { factReaders, type CaseReaders } from './case-content';
import { cellOf, type ColumnSet } from '../table/column-set';
import type { Draft } from './draft';
import { eventReader } from './events';
import { labelMatcher } from '../labels/labels';
import { moreFacts } from './more-facts';
import type { Ask } from '../questions';
import { sheetEvents } from './sheet-keys';
import { yesNo } from '../table/yes-no';

type ReaderOptions = { sheet: boolean; set: ColumnSet; ours: boolean; ask: Ask };

/** What the cells of a case are read by; once a procedure. */
export function readersOf(
  procedure: Procedure,
  drafts: readonly Draft[],
  { sheet, set, ask, ours }: ReaderOptions,
): CaseReaders {
  const labels = labelMatcher(procedure, ours);
  const stepOf = (label: string): string | null => {
    const [meaning, other] = labels(label).meanings;
    return meaning?.kind === 'step' && !other ? meaning.stepId : null;
  };
  const events = eventReader(procedure, { stepOf, ours, seriousGuess: seriousGuess(drafts, set, ask) });
  return {
    facts: factReaders(procedure),
    events: sheet ? sheetEvents(events) : events,
    stepOf,
    more: moreFacts(procedure),
  };
}

/** Where nothing says how serious events were, it is asked; until then they count as serious. */
function seriousGuess(drafts: readonly Draft[], set: ColumnSet, ask: Ask): boolean {
  const column = set.own('event');
  if (!column || set.own('event-serious')) return true;
  const named = drafts.flatMap(({ rows }) =>
    rows.filter(
      (row) =>
        cellOf(row, column) !== '' &&
        !/^(none|no|nil|uneventful|no (events?|complications?))$/i.test(cellOf(row, column)) &&
        (yesNo(cellOf(row, column)) ?? true),
    ),
  );
  if (named.length === 0) return true;
  return (
    ask({
      id: 'serious',
      question: 'No column says how serious the events were. How are they taken?',
      options: [
        { value: 'yes', label: 'as serious: each waits for your review' },
        { value: 'no', label: 'as not serious' },
      ],
      guess: 'yes',
      examples: named.map((row) => ({ row: row.row, text: cellOf(row, column) })),
    }) === 'yes'
  );
}
