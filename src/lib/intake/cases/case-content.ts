import type { Case, NewCase } from '../../model';
import type { ColumnSet } from '../headings/column';
import type { Ledger } from '../ledger';
import { agreedCell } from '../table/agreed-cell';
import type { Row } from '../table/cells';
import { toNumber } from '../table/duration';
import { yesNo } from '../table/yes-no';
import type { CaseReaders } from './case-readers';
import type { Draft, Line } from './draft';
import { eventsOf } from './events-of-case';
import { factsOf } from './facts-of-case';
import type { JoinedFacts } from './join-facts';

/** What a case holds by itself, before its list and its place in time. */
export type CaseContent = Omit<NewCase, 'sequence' | 'orderKnown' | 'list'>;

/** A case, its rows and lines read to the end. */
export function contentOf(
  draft: Draft,
  lines: readonly Line[],
  hands: Case['hands'],
  readers: CaseReaders,
  set: ColumnSet,
  joined: JoinedFacts,
  ledger: Ledger,
): CaseContent {
  const { rows } = draft;
  const kept = lines.flatMap(({ kind, reason }) => (kind === 'protected' && reason !== null ? [reason] : []));
  return {
    code: draft.code,
    procedureId: draft.procedure.id,
    position: draft.place ?? positionOf(rows, set, ledger),
    facts: factsOf(draft, set, readers, joined, ledger),
    hands,
    stretches: lines.map(({ stepId, start, end, seconds, kind, reason }) => ({
      stepId,
      start,
      end,
      seconds,
      kind,
      reason,
    })),
    returnsNoted: returnsOf(draft),
    events: eventsOf(draft, set, readers, ledger),
    protectedSeen: protectedSeenOf(rows, set, kept, ledger),
    energy: energyOf(rows, set, ledger),
    recording: null,
    row: rows[0]?.row ?? 0,
  };
}

/** Counts noted in several rows of one step: the largest, since people note a running count or repeat it. */
function returnsOf({ returns, rows }: Draft): Case['returnsNoted'] {
  if (returns.length === 0) return {};
  const taken = new Set(rows.map(({ row }) => row));
  const counts = new Map<string, number>();
  for (const { row, stepId, count } of returns)
    if (taken.has(row)) counts.set(stepId, Math.max(count, counts.get(stepId) ?? 0));
  return Object.fromEntries(counts);
}

/** Protected parts seen or not, where a column says so; else those that were timed were seen. */
function protectedSeenOf(
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

function positionOf(rows: readonly Row[], set: ColumnSet, ledger: Ledger): number | null {
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

function energyOf(rows: readonly Row[], set: ColumnSet, ledger: Ledger): Case['energy'] {
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
