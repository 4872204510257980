import Papa from 'papaparse';
import type { Case, Event, ListRecord, Procedure } from '../../model';
import { mapped, scaled, type Work } from '../../turns';
import { joinEvents } from '../cases/events';
import { harmless } from '../table/harmless';
import {
  caseHeadings,
  energyHeadings,
  eventHeadings,
  protectedPartIds,
  seenHeading,
  stretchHeadings,
} from './write-headings';

/** `date: 'month'` unless a full backup is wanted: a date with the theatre list says who it was. */
export type WriteOptions = { procedure: Procedure; lists: readonly ListRecord[]; dates?: 'month' | 'day' };

type Written = Omit<Case, 'id'> | Case;
type Cells = Record<string, string | number | boolean | null>;

/** Written in about two milliseconds, with all their stretches in ten. */
const CASES_A_PIECE = 20;

/**
 * Cases as CSV, one row a stretch; read back by `readAudit` to the same cases. Clock readings and lengths in seconds.
 * Not in it: reflections, recordings, history, what was left out and why (these are in the full export). Hands over between cases.
 */
export function* writingStretches(cases: readonly Written[], options: WriteOptions): Work<string> {
  const ofProcedure = cases.filter(({ procedureId }) => procedureId === options.procedure.id);
  const ofCase = caseWriter(options);
  const rowsOf = (one: Written): Cells[] => {
    const whole = ofCase(one);
    const noted = new Map(Object.entries(one.returnsNoted));
    const lines: Cells[] = one.stretches.map(({ stepId, start, end, seconds, kind, reason }) => {
      const count = stepId !== null && kind === 'step' ? noted.get(stepId) : undefined;
      if (stepId !== null && count !== undefined) noted.delete(stepId);
      const hands = stepId !== null && kind === 'step' ? (one.hands.steps[stepId] ?? null) : null;
      return {
        case_id: one.code,
        step: stepId,
        start_s: start,
        end_s: end,
        seconds,
        kind,
        reason,
        hands,
        returned_to: count ?? null,
      };
    });
    const timed = new Set(one.stretches.filter(({ kind }) => kind === 'step').map(({ stepId }) => stepId));
    const untimed = new Set([...Object.keys(one.hands.steps), ...noted.keys()].filter((id) => !timed.has(id)));
    // A step by other hands, or a count, without a time of its own: a row that says only that.
    for (const id of untimed)
      lines.push({
        case_id: one.code,
        step: id,
        kind: 'step',
        hands: one.hands.steps[id] ?? null,
        returned_to: noted.get(id) ?? null,
      });
    return lines.map((line, index) => (index === 0 ? { ...whole, ...line } : line));
  };
  const fields = [...stretchHeadings, ...eventHeadings, ...energyHeadings, ...shared(options.procedure)];
  return yield* inPieces(fields, ofProcedure, rowsOf);
}

/**
 * Cases as CSV, one row a case and one column a step: own stretches of each step added up, waiting beside it.
 * Clock readings and the order within a case are not in it; `writingStretches` keeps them.
 */
export function* writingCases(cases: readonly Written[], options: WriteOptions): Work<string> {
  const ofProcedure = cases.filter(({ procedureId }) => procedureId === options.procedure.id);
  const { steps } = options.procedure;
  const ofCase = caseWriter(options);
  // Twice over the cases, rather than a row of each kept until it is known which columns there are.
  const used = new Set<string>();
  const note = ({ stretches, returnsNoted, hands }: Written) => {
    for (const { stepId, kind } of stretches)
      if (kind !== 'protected') used.add(`${stepId}${kind === 'waiting' ? ' waiting' : ''}_s`);
    for (const id of Object.keys(returnsNoted)) used.add(`${id} returned to`);
    for (const id of Object.keys(hands.steps)) used.add(`${id} hands`);
  };
  yield* scaled(mapped(ofProcedure, note), 0, 0.1);
  const rowOf = (one: Written): Cells => {
    const sum = (stepId: string, kind: 'step' | 'waiting') => {
      const found = one.stretches.filter((stretch) => stretch.stepId === stepId && stretch.kind === kind);
      return found.length === 0
        ? null
        : Math.round(found.reduce((total, { seconds }) => total + seconds, 0) * 1000) / 1000;
    };
    const whole = ofCase(one);
    for (const { id } of steps) {
      whole[`${id}_s`] = sum(id, 'step');
      whole[`${id} waiting_s`] = sum(id, 'waiting');
      whole[`${id} returned to`] = one.returnsNoted[id] ?? null;
      whole[`${id} hands`] = one.hands.steps[id] ?? null;
    }
    return whole;
  };
  const columns = steps
    .flatMap(({ id }) => [`${id}_s`, `${id} waiting_s`, `${id} returned to`, `${id} hands`])
    .filter((key) => used.has(key));
  const fields = [...caseHeadings, ...eventHeadings, ...energyHeadings, ...columns, ...shared(options.procedure)];
  return yield* scaled(
    inPieces(fields, ofProcedure, (one) => [rowOf(one)]),
    0.1,
    1,
  );
}

const shared = (procedure: Procedure): string[] => [
  ...procedure.facts.map(({ id }) => id),
  ...protectedPartIds(procedure).map(seenHeading),
];

/** What belongs to the whole case; stands in its first row. */
function caseWriter({ procedure, lists, dates = 'month' }: WriteOptions): (one: Written) => Cells {
  const numbered = new Map(lists.map((list, index) => [list.id, { list, number: listNumber(list, index) }]));
  const partIds = protectedPartIds(procedure);
  return (one) => {
    const { list, number } = numbered.get(one.listId ?? '') ?? { list: undefined, number: null };
    const seen = partIds.map((id) => [seenHeading(id), yesNo(one.protectedSeen[id])] as const);
    const facts = procedure.facts.map(({ id }) => [id, factCell(one.facts[id])] as const);
    return {
      case_id: one.code,
      procedure: one.procedureId,
      list: list ? (list.label ?? (dates === 'month' || list.when.kind !== 'date' ? number : null)) : null,
      date: list ? dateCell(list, dates) : null,
      position: one.position,
      case_hands: one.hands.whole,
      ...eventCells(one.events, dates),
      energy: one.energy?.value ?? null,
      energy_unit: one.energy?.unit ?? null,
      ...Object.fromEntries([...facts, ...seen]),
    };
  };
}

const listNumber = ({ when }: ListRecord, index: number): number => (when.kind === 'number' ? when.number : index + 1);

function dateCell({ when }: ListRecord, dates: 'month' | 'day'): string | null {
  if (when.kind === 'date') return dates === 'day' ? when.date : when.date.slice(0, 7);
  return when.kind === 'month' ? when.month : null;
}

const yesNo = (value: boolean | undefined): string | null => (value === undefined ? null : value ? 'yes' : 'no');
const factCell = (value: string | number | boolean | undefined): string | number | null =>
  typeof value === 'boolean' ? yesNo(value) : (value ?? null);

function eventCells(events: readonly Event[] | null, dates: 'month' | 'day'): Cells {
  if (events === null) return { event: null };
  if (events.length === 0) return { event: 'none' };
  const all = (part: (event: Event) => string) => joinEvents(events.map(part));
  return {
    event: all(({ kind }) => kind),
    event_step: all(({ stepId }) => stepId ?? ''),
    event_serious: all(({ serious }) => (serious ? 'yes' : 'no')),
    event_near_miss: all(({ nearMiss }) => (nearMiss ? 'yes' : 'no')),
    event_noticed: all(({ noticed }) => noticed),
    event_reviewed_at: all(({ reviewed }) => (dates === 'day' ? reviewed?.at : reviewed?.at.slice(0, 7)) ?? ''),
    event_review: all(({ reviewed }) => reviewed?.text ?? ''),
  };
}

const FORMAT: Papa.UnparseConfig = { newline: '\n', quotes: (cell) => /[;\t]/.test(String(cell)) };

/** A sheet to be filled in: its headings, and of each row the cells that stand in it already. */
export const writeSheet = (headings: readonly string[], rows: readonly (readonly string[])[]): string =>
  [headings, ...rows.map((row) => headings.map((_, index) => row[index] ?? ''))]
    .map((cells) => `${Papa.unparse([cells.map(harmless)], FORMAT)}\n`)
    .join('');

const line = (cells: readonly string[]): string => `${Papa.unparse([cells.map(harmless)], FORMAT)}\n`;

/** Rows become text some cases at a time: of 100,000 cases all rows at once took gigabytes, and so did lines not yet joined. */
function* inPieces(
  fields: readonly string[],
  cases: readonly Written[],
  rowsOf: (one: Written) => readonly Cells[],
): Work<string> {
  const starts = Array.from({ length: Math.ceil(cases.length / CASES_A_PIECE) }, (_, nth) => nth * CASES_A_PIECE);
  const pieceAt = (start: number) =>
    cases
      .slice(start, start + CASES_A_PIECE)
      .flatMap(rowsOf)
      .map((row) => line(fields.map((field) => String(row[field] ?? ''))))
      .join('');
  return [line(fields), ...(yield* mapped(starts, pieceAt, 1))].join('');
}
