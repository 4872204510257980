import type { Case, Hands } from '../../model';
import { cellOf, type ColumnSet } from '../headings/column';
import type { Ledger } from '../ledger';
import { agreedCell } from '../table/agreed-cell';
import type { Row } from '../table/cells';
import type { Draft, Line } from './draft';
import { handsOf, readHands, WHOSE_HANDS } from './hands';

export type HandsSaid = { hands: Case['hands']; said: boolean };

/** Whose hands, as a file of times says it. @returns `said` false where it does not */
export function handsOfCase(draft: Draft, lines: readonly Line[], set: ColumnSet, ledger: Ledger): HandsSaid {
  const whole = wholeHandsOf(draft.rows, set, draft.hands.length > 0, ledger);
  if (draft.hands.length === 0) return { hands: handsOf([], whole, []), said: whole !== null };
  const steps: string[] = [];
  for (const { kind, stepId } of lines)
    if (kind === 'step' && stepId !== null && !steps.includes(stepId)) steps.push(stepId);
  return { hands: handsOf(draft.hands, whole, steps), said: true };
}

/** Whose hands for the whole case. Words not known may be a colleague's name: not repeated, and taken as shared. */
function wholeHandsOf(rows: readonly Row[], set: ColumnSet, saysSteps: boolean, ledger: Ledger): Hands | null {
  const column = set.own('case-hands') ?? (saysSteps ? undefined : set.own('hands'));
  if (!column) return null;
  const unknown = rows.find((row) => readHands(cellOf(row, column)) === undefined);
  if (!unknown) return agreedCell(rows, column, (text) => ({ value: readHands(text) ?? null }), ledger);
  ledger.refuseCell(unknown.row, column.heading, null, WHOSE_HANDS);
  return 'shared';
}
