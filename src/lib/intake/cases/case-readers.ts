import type { Procedure } from '../../model';
import type { Steps } from '../../turns';
import { cellOf, type ColumnSet } from '../headings/column';
import type { Table } from '../headings/table';
import { labelMatcher } from '../labels/labels';
import { note, type Ask, type Example } from '../questions';
import { yesNo } from '../table/yes-no';
import { weights } from '../weights';
import type { Draft } from './draft';
import { eventReader, type EventCells, type EventsRead } from './events';
import { factReader, type FactRead } from './facts';
import { moreFacts, type MoreFact } from './more-facts';
import { sheetEvents } from './sheet-keys';

/** Readers made once a file and procedure, for what is said of a whole case. */
export type CaseReaders = {
  facts: ReadonlyMap<string, (text: string) => FactRead>;
  events: (cells: EventCells) => EventsRead;
  /** The step a label names; `null` where it names none, or more than one. */
  stepOf: (label: string) => string | null;
  more: readonly MoreFact[];
};

/** What the cells of these cases are read by, once a procedure. */
export function* readersOf(
  drafts: readonly Draft[],
  { set, ours, layout }: Pick<Table, 'set' | 'ours' | 'layout'>,
  ask: Ask,
): Steps<Map<Procedure, CaseReaders>> {
  const seriousGuess = yield* takenAsSerious(drafts, set, ask);
  const options = { sheet: layout === 'sheet', ours, seriousGuess };
  const readers = new Map<Procedure, CaseReaders>();
  for (const { procedure } of drafts) {
    yield weights.row;
    if (!readers.has(procedure)) readers.set(procedure, readersFor(procedure, options));
  }
  return readers;
}

function readersFor(
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
    facts: new Map(procedure.facts.map((fact) => [fact.id, factReader(fact)])),
    events: sheet ? sheetEvents(events) : events,
    stepOf,
    more: moreFacts(procedure),
  };
}

/** Where nothing says how serious events were, it is asked; until then they count as serious. */
function* takenAsSerious(drafts: readonly Draft[], set: ColumnSet, ask: Ask): Steps<boolean> {
  const column = set.own('event');
  if (!column || set.own('event-serious')) return true;
  const examples: Example[] = [];
  for (const { rows } of drafts) {
    yield weights.case;
    for (const row of rows) if (namesEvent(cellOf(row, column))) note(examples, row.row, cellOf(row, column));
  }
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
