import type { Procedure } from '../../model';
import { mapped, type Work } from '../../turns';
import { factReaders, type CaseReaders } from './case-content';
import { cellOf, type ColumnSet } from '../headings/column-set';
import type { Draft } from './draft';
import { eventReader } from './events';
import { labelMatcher } from '../labels/labels';
import { moreFacts } from './more-facts';
import type { Ask } from '../questions';
import { intakeThresholds } from '../thresholds';
import { sheetEvents } from './sheet-keys';
import { yesNo } from '../table/yes-no';

/** What the cells of a case are read by; once a procedure. */
export function readersOf(
  procedure: Procedure,
  { sheet, ours, seriousGuess }: { sheet: boolean; ours: boolean; seriousGuess: boolean },
): CaseReaders {
  const labels = labelMatcher(procedure, ours);
  const stepOf = (label: string): string | null => {
    const [meaning, other] = labels(label).meanings;
    return meaning?.kind === 'step' && !other ? meaning.stepId : null;
  };
  const events = eventReader(procedure, { stepOf, ours, seriousGuess });
  return {
    facts: factReaders(procedure),
    events: sheet ? sheetEvents(events) : events,
    stepOf,
    more: moreFacts(procedure),
  };
}

/** Where nothing says how serious events were, it is asked; until then they count as serious. */
export function* takenAsSerious(drafts: readonly Draft[], set: ColumnSet, ask: Ask): Work<boolean> {
  const column = set.own('event');
  if (!column || set.own('event-serious')) return true;
  const examples: { row: number; text: string }[] = [];
  yield* mapped(drafts, ({ rows }) => {
    for (const row of rows) {
      const text = cellOf(row, column);
      if (examples.length < intakeThresholds.examples && namesEvent(text)) examples.push({ row: row.row, text });
    }
  });
  if (examples.length === 0) return true;
  return (
    ask({
      id: 'serious',
      question: 'No column says how serious the events were. How are they taken?',
      options: [
        { value: 'yes', label: 'as serious: each waits for your review' },
        { value: 'no', label: 'as not serious' },
      ],
      guess: 'yes',
      examples,
    }) === 'yes'
  );
}

const namesEvent = (text: string): boolean =>
  text !== '' && !/^(none|no|nil|uneventful|no (events?|complications?))$/i.test(text) && (yesNo(text) ?? true);
