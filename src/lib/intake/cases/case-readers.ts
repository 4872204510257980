import type { Procedure } from '../../model';
import type { Steps } from '../../turns';
import { cellOf, type ColumnSet } from '../headings/column';
import type { Table } from '../headings/table';
import { labelMatcher } from '../labels/labels';
import { note, type Ask, type Example } from '../questions';
import { weights } from '../weights';
import type { Draft } from './draft';
import { eventWords } from './event-words';
import { eventReader, type EventCells, type EventsRead, type EventWords } from './events';
import { factReader, type FactRead } from './facts';
import { moreFacts, type MoreFact } from './more-facts';
import { sheetEvents } from './sheet-keys';

/** Readers made once a file and procedure, for what is said of a whole case. */
export type CaseReaders = {
  facts: ReadonlyMap<string, (text: string) => FactRead>;
  events: (cells: EventCells) => EventsRead;
  /** Of a case in which no cell says anything of events. */
  noEventCell: EventWords['empty'];
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
  const words = yield* eventWords(drafts, { set, ours, layout }, ask);
  const options = { sheet: layout === 'sheet', ours, words, seriousGuess: true };
  const readers = new Map<Procedure, CaseReaders>();
  for (const { procedure } of drafts) {
    yield weights.row;
    if (!readers.has(procedure)) readers.set(procedure, readersFor(procedure, options));
  }
  if (yield* takenAsSerious(drafts, readers, set, ask)) return readers;
  for (const procedure of readers.keys())
    readers.set(procedure, readersFor(procedure, { ...options, seriousGuess: false }));
  return readers;
}

function readersFor(
  procedure: Procedure,
  options: { sheet: boolean; ours: boolean; words: EventWords; seriousGuess: boolean },
): CaseReaders {
  const labels = labelMatcher(procedure, options.ours);
  const stepOf = (label: string): string | null => {
    const [meaning, other] = labels(label).meanings;
    return meaning?.kind === 'step' && !other ? meaning.stepId : null;
  };
  const events = eventReader(procedure, { ...options, stepOf });
  return {
    facts: new Map(procedure.facts.map((fact) => [fact.id, factReader(fact)])),
    events: options.sheet ? sheetEvents(events) : events,
    noEventCell: options.words.empty,
    stepOf,
    more: moreFacts(procedure),
  };
}

/** Where nothing says how serious events were, it is asked; until then they count as serious. */
function* takenAsSerious(
  drafts: readonly Draft[],
  readers: ReadonlyMap<Procedure, CaseReaders>,
  set: ColumnSet,
  ask: Ask,
): Steps<boolean> {
  const column = set.own('event');
  if (!column || set.own('event-serious')) return true;
  const examples: Example[] = [];
  const noCells = { step: '', serious: '', nearMiss: '', noticed: '', reviewedAt: '', review: '' };
  for (const { rows, procedure } of drafts) {
    yield weights.case;
    const reader = readers.get(procedure);
    for (const row of rows) {
      const kind = cellOf(row, column);
      if (kind === '' || !reader?.events({ ...noCells, kind }).events?.some(({ nearMiss }) => !nearMiss)) continue;
      note(examples, row.row, kind);
    }
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
