import type { Procedure } from '../../model';
import { parted, type Steps } from '../../turns';
import type { Context } from '../context';
import { cellOf, type ColumnSet } from '../headings/column';
import type { Table } from '../headings/table';
import { labelMatcher } from '../labels/labels';
import { remembered } from '../labels/once-per';
import { note, type Ask, type Example } from '../questions';
import { weights } from '../weights';
import type { Draft } from './draft';
import { factValues, type ValuePlan } from './fact-values';
import { eventWords } from './event-words';
import { eventReader, type EventCells, type EventsRead, type EventWords } from './events';
import type { FactRead } from './facts';
import { moreFacts, type MoreFact } from './more-facts';
import { sheetEvents } from './sheet-keys';
import { yesNoColumns, type YesNoColumns } from './yes-no-columns';

/** Readers made once a file and procedure, for what is said of a whole case. */
export type CaseReaders = {
  facts: ReadonlyMap<string, (text: string) => FactRead>;
  events: (cells: EventCells) => EventsRead;
  /** Of a case in which no cell says anything of events. */
  noEventCell: EventWords['empty'];
  /** The step a label names; `null` where it names none, or more than one. */
  stepOf: (label: string) => string | null;
  more: readonly MoreFact[];
  yesNo: YesNoColumns;
};

/** What the cells of these cases are read by, once a procedure. */
export function* readersOf(
  drafts: readonly Draft[],
  { set, ours, layout }: Pick<Table, 'set' | 'ours' | 'layout'>,
  { choices, ask }: Pick<Context, 'choices' | 'ask'>,
): Steps<{ readers: Map<Procedure, CaseReaders>; values: ValuePlan[] }> {
  const words = yield* eventWords(drafts, { set, ours, layout }, ask);
  const options = { sheet: layout === 'sheet', ours, words, seriousGuess: true };
  const readers = new Map<Procedure, CaseReaders>();
  const values: ValuePlan[] = [];
  for (const part of parted(drafts)) {
    yield part.length * weights.row;
    for (const { procedure } of part) {
      if (readers.has(procedure)) continue;
      const facts = yield* factValues(drafts, procedure, { set, ours }, choices, ask);
      const yesNo = yield* yesNoColumns(drafts, procedure, { set, ours, layout }, ask);
      values.push(...facts.plans);
      readers.set(procedure, { ...readersFor(procedure, options), facts: facts.readers, yesNo });
    }
  }
  if (!(yield* takenAsSerious(drafts, readers, set, ask)))
    for (const [procedure, made] of readers) {
      const { events } = readersFor(procedure, { ...options, seriousGuess: false });
      readers.set(procedure, { ...made, events });
    }
  return { readers, values };
}

function readersFor(
  procedure: Procedure,
  options: { sheet: boolean; ours: boolean; words: EventWords; seriousGuess: boolean },
): Omit<CaseReaders, 'facts' | 'yesNo'> {
  const labels = labelMatcher(procedure, options.ours);
  const stepOf = (label: string): string | null => {
    const [meaning, other] = labels(label).meanings;
    return meaning?.kind === 'step' && !other ? meaning.stepId : null;
  };
  const events = eventReader(procedure, { ...options, stepOf });
  return {
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
  const isEventOf = new Map(
    [...readers].map(([procedure, { events }]) => [
      procedure,
      remembered((kind) => events({ ...noCells, kind }).events?.some(({ nearMiss }) => !nearMiss) ?? false),
    ]),
  );
  for (const part of parted(drafts)) {
    yield part.length * weights.case;
    for (const { rows, procedure } of part) {
      const isEvent = isEventOf.get(procedure);
      for (const row of rows) {
        const kind = cellOf(row, column);
        if (kind !== '' && isEvent?.(kind)) note(examples, row.row, kind);
      }
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
