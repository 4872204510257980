import type { Case, Event, FactValue, Hands, Procedure } from '../../model';
import { agreedCell } from '../table/agreed-cell';
import { cellOf, type ColumnSet } from '../headings/column-set';
import type { Row } from '../table/cells';
import { toNumber } from '../table/duration';
import type { EventCells, EventsRead } from './events';
import { factReader, type FactRead } from './facts';
import { readHands, WHOSE_HANDS } from './hands';
import type { Ledger } from '../ledger';
import { factsOfLetters, readLetters, type MoreFact } from './more-facts';
import { yesNo } from '../table/yes-no';

/** Readers made once a file and procedure, for what is said of a whole case. */
export type CaseReaders = {
  facts: ReadonlyMap<string, (text: string) => FactRead>;
  events: (cells: EventCells) => EventsRead;
  /** The step a label names; `null` where it names none, or more than one. */
  stepOf: (label: string) => string | null;
  more: readonly MoreFact[];
};

export const factReaders = (procedure: Procedure): CaseReaders['facts'] =>
  new Map(procedure.facts.map((fact) => [fact.id, factReader(fact)]));

/** Facts of the eye; those not entered are not in it. */
export function factsOf(
  rows: readonly Row[],
  set: ColumnSet,
  readers: CaseReaders,
  ledger: Ledger,
): Record<string, FactValue> {
  const own = Object.fromEntries(
    set.columns.flatMap((column) => {
      const read = column.target.what === 'fact' ? readers.facts.get(column.target.id) : undefined;
      if (!read || column.target.what !== 'fact') return [];
      const value = agreedCell(rows, column, read, ledger);
      return value === null ? [] : [[column.target.id, value] as const];
    }),
  );
  const letters = moreOf(rows, set, readers, ledger);
  return { ...own, ...letters, ...own };
}

/** Letters under "anything else" answer every fact that is asked there. */
function moreOf(rows: readonly Row[], set: ColumnSet, { more }: CaseReaders, ledger: Ledger): Record<string, boolean> {
  const column = set.own('more');
  if (!column) return {};
  const read = (text: string) => {
    const found = readLetters(text, more);
    return 'problem' in found
      ? { problem: `${found.problem} Correct it, or these facts are left as not entered.` }
      : { value: found.letters };
  };
  const letters = agreedCell<string>(rows, column, read, ledger);
  return letters === null ? {} : factsOfLetters(letters, more);
}

/** Protected parts seen or not, where a column says so; else those that were timed were seen. */
export function protectedSeenOf(
  rows: readonly Row[],
  set: ColumnSet,
  timed: readonly string[],
  ledger: Ledger,
): Record<string, boolean> {
  const asked = set.columns.filter(({ target }) => target.what === 'seen');
  const said = asked.flatMap((column) => {
    const value = agreedCell(rows, column, readSeen, ledger);
    return value === null || column.target.what !== 'seen' ? [] : [[column.target.id, value] as const];
  });
  const named = new Set(asked.map(({ target }) => ('id' in target ? target.id : '')));
  return Object.fromEntries([...timed.filter((id) => !named.has(id)).map((id) => [id, true] as const), ...said]);
}

function readSeen(text: string): { value: boolean | null } | { problem: string } {
  const value = yesNo(text);
  return value === undefined
    ? { problem: `"${text}" is neither yes nor no. Say whether the part was seen, or leave it empty.` }
    : { value };
}

/** Events of a case: answered where any of its rows answers; the same cells in several rows count once. */
export function eventsOf(rows: readonly Row[], set: ColumnSet, readers: CaseReaders, ledger: Ledger): Event[] | null {
  const column = set.own('event');
  if (!column) return null;
  let events: Event[] | null = null;
  let none: number | null = null;
  const seen = new Set<string>();
  for (const row of rows) {
    const cells: EventCells = {
      kind: cellOf(row, column),
      step: cellOf(row, set.own('event-step')),
      serious: cellOf(row, set.own('event-serious')),
      nearMiss: cellOf(row, set.own('event-near-miss')),
      noticed: cellOf(row, set.own('event-noticed')),
      reviewedAt: cellOf(row, set.own('event-reviewed-at')),
      review: cellOf(row, set.own('event-review')),
    };
    const key = JSON.stringify(cells);
    if (cells.kind === '' || seen.has(key)) continue;
    seen.add(key);
    const read = readers.events(cells);
    for (const { part, value, why } of read.wrong) ledger.query(row.row, headingOf(set, part), value || null, why);
    if (read.events === null) continue;
    if (read.events.length === 0) none ??= row.row;
    events = [...(events ?? []), ...read.events];
    if (none !== null && events.length > 0)
      ledger.query(
        row.row,
        column.heading,
        cells.kind,
        `Row ${none} of the same case says there was no event, another row names one; the event is taken. Make them agree.`,
      );
  }
  return events;
}

const EVENT_COLUMNS = {
  kind: 'event',
  step: 'event-step',
  serious: 'event-serious',
  nearMiss: 'event-near-miss',
  noticed: 'event-noticed',
  reviewedAt: 'event-reviewed-at',
  review: 'event-review',
} as const;

const headingOf = (set: ColumnSet, part: keyof EventCells): string | null =>
  set.own(EVENT_COLUMNS[part])?.heading ?? null;

export function positionOf(rows: readonly Row[], set: ColumnSet, ledger: Ledger): number | null {
  const column = set.own('position');
  if (!column) return null;
  return agreedCell<number>(
    rows,
    column,
    (text) => {
      const number = /^(\d{1,3})(?:\.0+)?\.?$/.exec(text)?.[1];
      if (number !== undefined && Number(number) > 0) return { value: Number(number) };
      return {
        problem: `"${text}" is not a place in a list. Write 1 for the first case of the list, or leave it empty.`,
      };
    },
    ledger,
  );
}

export function energyOf(rows: readonly Row[], set: ColumnSet, ledger: Ledger): Case['energy'] {
  const column = set.own('energy');
  if (!column) return null;
  const value = agreedCell<number>(
    rows,
    column,
    (text) => {
      if (yesNo(text) === null) return { value: null };
      return /^\d+(?:[.,]\d+)?$/.test(text)
        ? { value: toNumber(text) }
        : { problem: `"${text}" is not a number. Write the energy as the machine showed it, or leave it empty.` };
    },
    ledger,
  );
  const unit = set.own('energy-unit');
  const written = unit && agreedCell(rows, unit, (text) => ({ value: text }), ledger);
  // The heading itself names the measure ("CDE") where no column does.
  return value === null ? null : { value, unit: written ?? (unit ? '' : column.heading) };
}

/** Whose hands for the whole case. Words not known may be a colleague's name: not repeated, and taken as shared. */
export function wholeHandsOf(rows: readonly Row[], set: ColumnSet, saysSteps: boolean, ledger: Ledger): Hands | null {
  const column = set.own('case-hands') ?? (saysSteps ? undefined : set.own('hands'));
  if (!column) return null;
  const unknown = rows.find((row) => readHands(cellOf(row, column)) === undefined);
  if (!unknown) return agreedCell(rows, column, (text) => ({ value: readHands(text) ?? null }), ledger);
  ledger.refuseCell(unknown.row, column.heading, null, WHOSE_HANDS);
  return 'shared';
}
