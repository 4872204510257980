import type { Procedure } from '../../model';
import { mapped, type Work } from '../../turns';
import type { Row } from '../table/cells';
import { blankOf } from '../table/blanks';
import type { OwnColumn } from './columns';
import { parseDuration } from '../table/duration';
import { factReader } from '../cases/facts';
import type { HeadingUnit } from './heading-unit';
import { headingMatcher, type HeadingMatch } from './headings';
import type { Ledger } from '../ledger';
import { placeAll } from '../stretches/place';
import { plainWords } from '../labels/plain-words';
import type { Ask } from '../questions';
import { leave, targetOf, targetValue, targetWords, type Layout, type Target } from './targets';
import { intakeThresholds } from '../thresholds';

export type How = 'exact' | 'loose' | 'position' | 'chosen' | 'none';

export type Column = {
  index: number;
  heading: string;
  key: string;
  target: Target;
  how: How;
  unit: HeadingUnit | null;
};

export type ColumnSet = {
  columns: readonly Column[];
  own: (id: OwnColumn) => Column | undefined;
};

export const cellOf = (row: Row, column: Column | undefined): string => (column ? (row.cells[column.index] ?? '') : '');

/** What each column holds: by its heading, by what stands under it where the heading says too little, or as chosen. */
export function* columnSet(
  headings: readonly string[],
  rows: readonly Row[],
  procedure: Procedure,
  layout: Layout,
  choices: Readonly<Record<string, string>>,
  ask: Ask,
  ledger: Ledger,
): Work<ColumnSet> {
  const match = headingMatcher(procedure, layout);
  const keys = columnKeys(headings);
  const matches = yield* mapped(headings, (heading) => (heading === '' ? null : match(heading)), COLUMNS_A_SLICE);
  const understood = (heading: string, index: number): Column => {
    const key = keys[index] ?? `column:${index + 1}`;
    const base = { index, heading, key, unit: matches[index]?.unit ?? null };
    const chosen = targetOf(choices[key] ?? '', procedure);
    if (chosen) return { ...base, target: chosen, how: 'chosen' };
    return { ...base, ...settle(matches[index] ?? null, under(rows, index), { key, heading, procedure, layout, ask }) };
  };
  const columns = yield* mapped(headings, understood, COLUMNS_A_SLICE);
  placeColumns(columns, matches, procedure);
  yield* mapped(
    [...columns],
    (column) => dropWhatDoesNotRead(column, columns, rows, procedure, ledger),
    COLUMNS_A_SLICE,
  );
  dropTwice(columns, ledger);
  const own = new Map(
    columns.flatMap((column) => (column.target.what === 'own' ? [[column.target.id, column] as const] : [])),
  );
  return { columns, own: (id) => own.get(id) };
}

/** Each is looked into over some hundred rows. */
const COLUMNS_A_SLICE = 3;

/** The form field of each column: its heading in plain words, numbered where two are the same. */
export function columnKeys(headings: readonly string[]): string[] {
  const seen = new Map<string, number>();
  return headings.map((heading, index) => {
    const words = plainWords(heading) || `${index + 1}`;
    const times = (seen.get(words) ?? 0) + 1;
    seen.set(words, times);
    return times === 1 ? `column:${words}` : `column:${words}#${times}`;
  });
}

const under = (rows: readonly Row[], index: number): string[] =>
  rows
    .slice(0, intakeThresholds.columnSample)
    .map(({ cells }) => cells[index] ?? '')
    .filter((cell) => blankOf(cell) === null);

function settle(
  match: HeadingMatch | null,
  cells: readonly string[],
  about: { key: string; heading: string; procedure: Procedure; layout: Layout; ask: Ask },
): { target: Target; how: How } {
  const [first] = match?.targets ?? [];
  if (!match || !first || match.how === 'none') return { target: first ?? leave('unknown'), how: 'none' };
  if (match.how === 'unclear') {
    const answer = about.ask({
      id: about.key,
      question: `"${about.heading}" could mean more than one thing. Which?`,
      options: [...match.targets, leave('chosen')].map((target) => ({
        value: targetValue(target),
        label: targetWords(target, about.procedure),
      })),
      guess: 'leave',
    });
    return {
      target: answer === 'leave' ? leave('unclear') : (targetOf(answer, about.procedure) ?? leave('unclear')),
      how: 'none',
    };
  }
  // "Nucleus" is a fact of the eye and a step: what stands under it tells, but for a sheet that has no times.
  const fact = match.targets.find((target) => target.what === 'fact');
  const step = match.targets.find((target) => target.what === 'step-time');
  if (fact && step && about.layout === 'sheet') return { target: fact, how: match.how };
  if (fact && step) return { target: readsAsFact(fact.id, cells, about.procedure) ? fact : step, how: match.how };
  return { target: first, how: match.how };
}

function readsAsFact(id: string, cells: readonly string[], procedure: Procedure): boolean {
  const fact = procedure.facts.find((one) => one.id === id);
  if (!fact) return false;
  const read = factReader(fact);
  const levels = cells.filter((cell) => 'value' in read(cell));
  return cells.length === 0 || levels.length >= intakeThresholds.factShare * cells.length;
}

/** A heading that names several steps goes by its place among the other columns. */
function placeColumns(columns: Column[], matches: readonly (HeadingMatch | null)[], procedure: Procedure): void {
  const stepsOf = (column: Column): string[] =>
    column.how === 'chosen' || column.how === 'none'
      ? 'id' in column.target
        ? [column.target.id]
        : []
      : (matches[column.index]?.targets ?? []).flatMap((target) =>
          target.what === column.target.what && 'id' in target ? [target.id] : [],
        );
  const ofSteps = columns.filter(({ target }) => target.what.startsWith('step-'));
  const placed = placeAll(
    ofSteps,
    stepsOf,
    procedure.steps.map(({ id }) => id),
  );
  for (const { item, stepId, byPlace } of placed)
    if (byPlace) columns[item.index] = { ...item, target: { ...item.target, id: stepId } as Target, how: 'position' };
}

/** A column under which little reads as its heading promises is left, and that is said once, not for every cell. */
function dropWhatDoesNotRead(
  column: Column,
  columns: Column[],
  rows: readonly Row[],
  procedure: Procedure,
  ledger: Ledger,
): void {
  const { target } = column;
  if (column.how === 'chosen' || (target.what !== 'step-time' && target.what !== 'fact')) return;
  const cells = under(rows, column.index);
  const reads =
    target.what === 'fact'
      ? (cell: string) => readsAsFact(target.id, [cell], procedure)
      : (cell: string) => 'seconds' in parseDuration(cell) || /\d/.test(cell);
  const wrong = cells.filter((cell) => !reads(cell)).length;
  if (wrong < intakeThresholds.notTimesCells || wrong <= intakeThresholds.notTimesShare * cells.length) return;
  const what = target.what === 'fact' ? 'this fact of the eye' : 'times';
  ledger.query(
    null,
    column.heading,
    null,
    `The column "${column.heading}" does not read as ${what}, so the column is not used. Choose what it holds, or leave it.`,
  );
  columns[column.index] = { ...column, target: leave('no-times'), how: 'none' };
}

/** Two columns for one thing: the first is used. A step may come twice: it was returned to. */
function dropTwice(columns: Column[], ledger: Ledger): void {
  const seen = new Set<string>();
  for (const column of columns) {
    const value = targetValue(column.target);
    if (column.target.what === 'leave' || column.target.what === 'step-time') continue;
    if (seen.has(value)) {
      ledger.query(
        null,
        column.heading,
        null,
        `Another column already holds the same as "${column.heading}"; the first is used. Choose which of the two it should be.`,
      );
      columns[column.index] = { ...column, target: leave('twice'), how: 'none' };
    }
    seen.add(value);
  }
}
