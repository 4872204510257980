import type { Procedure } from '../../model';
import type { Ledger } from '../ledger';
import { placeAll } from '../stretches/place';
import type { Row } from '../table/cells';
import { parseDuration } from '../table/duration';
import { yesNo } from '../table/yes-no';
import { intakeThresholds } from '../thresholds';
import { readsAsFact, under } from './column-meaning';
import type { Column } from './column';
import type { Heading } from './read-headings';
import { leave, targetValue, type Target } from './targets';

/** A heading that names several steps goes by its place among the other columns. */
export function placeColumns(columns: Column[], headings: readonly Heading[], procedure: Procedure): void {
  const stepsOf = (column: Column): string[] =>
    column.how === 'chosen' || column.how === 'none'
      ? 'id' in column.target
        ? [column.target.id]
        : []
      : (headings[column.index]?.match?.targets ?? []).flatMap((target) =>
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
export function dropWhatDoesNotRead(
  column: Column,
  columns: Column[],
  rows: readonly Row[],
  procedure: Procedure,
  ledger: Ledger,
): void {
  const { target } = column;
  if (column.how === 'chosen' || (target.what !== 'step-time' && target.what !== 'fact' && target.what !== 'level'))
    return;
  const cells = under(rows, column.index);
  const reads =
    target.what === 'fact'
      ? (cell: string) => readsAsFact(target.id, [cell], procedure, 'decimals')
      : target.what === 'level'
        ? (cell: string) => yesNo(cell) !== undefined
        : (cell: string) => 'seconds' in parseDuration(cell) || /\d/.test(cell);
  const wrong = cells.filter((cell) => !reads(cell)).length;
  if (wrong < intakeThresholds.notTimesCells || wrong <= intakeThresholds.notTimesShare * cells.length) return;
  const what = { fact: 'this fact of the eye', level: 'yes and no', 'step-time': 'times' }[target.what];
  ledger.query(
    null,
    column.heading,
    null,
    `The column "${column.heading}" does not read as ${what}, so the column is not used. Choose what it holds, or leave it.`,
  );
  columns[column.index] = { ...column, target: leave('no-times'), how: 'none' };
}

/** Two columns for one thing: the first is used. A step may come twice: it was returned to. */
export function dropTwice(columns: Column[], ledger: Ledger): void {
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
