import type { Hands } from '../../model';
import { agreedCell } from '../table/agreed-cell';
import { blankOf } from '../table/blanks';
import { cellOf, type ColumnSet } from '../headings/column';
import type { Row } from '../table/cells';
import type { EventCells, EventsRead } from './events';
import { handsOf, readHands, WHOSE_HANDS } from './hands';
import type { HandsSaid } from './hands-of-case';
import type { Ledger } from '../ledger';

type StepOf = (label: string) => string | null;

/** Sheets printed earlier had M and S, which stood for a pupil too. */
const KEY: Readonly<Record<string, Hands>> = { b: 'someone-else', s: 'someone-else', t: 'taken-over' };

/**
 * Whose hands, by the keys of the list sheet: `O` all my own; `B` both, some not mine, and `T` taken over, each with its
 * steps after it ("B capsulorhexis, hydrodissection"). Without a step nobody can tell which of them were own: then the whole
 * case counts as shared until it is said. Words are understood as in any other file.
 *
 * @returns `said` false where the cell is empty
 */
export function sheetHandsOf(rows: readonly Row[], set: ColumnSet, stepOf: StepOf, ledger: Ledger): HandsSaid {
  const column = set.own('case-hands') ?? set.own('hands');
  const mine = { hands: handsOf([], null, []), said: false };
  const [row] = rows;
  if (!column || !row) return mine;
  const text = agreedCell(rows, column, (cell) => ({ value: blankOf(cell) === null ? cell : null }), ledger);
  if (text === null) return mine;
  const [, key = '', named = ''] = /^([omsbt])(?:\s*[:.,-]?\s+(.+))?$/i.exec(text) ?? [];
  const hands = KEY[key.toLowerCase()];
  const shared = (why: string): HandsSaid => {
    ledger.query(row.row, column.heading, named === '' ? text : null, why);
    return { hands: handsOf([], 'shared', []), said: true };
  };
  if (hands === undefined) {
    const whole = /^[om]$/i.test(text) ? 'mine' : readHands(text);
    return whole ? { hands: handsOf([], whole, []), said: true } : shared(WHOSE_HANDS);
  }
  const labels = named.split(/[,;+]/).map((label) => label.trim());
  const steps = labels.map(stepOf).filter((id) => id !== null);
  if (named === '' || steps.length < labels.length)
    return shared(
      `${cellOf(row, column).charAt(0).toUpperCase()} needs its steps after it (${key.toUpperCase()} capsulorhexis). Until they are known, the whole case counts as shared: correct it here or on its list.`,
    );
  return { hands: { whole: 'mine', steps: Object.fromEntries(steps.map((id) => [id, hands])) }, said: true };
}

/** `E` says that there was an event and not which; `E capsule tear` says both. */
export const sheetEvents =
  (read: (cells: EventCells) => EventsRead): ((cells: EventCells) => EventsRead) =>
  (cells) => {
    const [, named = ''] = /^e(?:\s*[:.,-]?\s+(.+))?$/i.exec(cells.kind) ?? [];
    if (named !== '') return read({ ...cells, kind: named });
    if (!/^e$/i.test(cells.kind)) return read(cells);
    const { events, wrong } = read({ ...cells, kind: 'yes' });
    const why =
      'E says that there was an event, not which; it is kept as "something else". Say what it was on its page.';
    return { events, wrong: [...wrong, { part: 'kind', value: cells.kind, why }] };
  };
