import type { Draft, Line } from '../cases/draft';
import { toMilliseconds } from '../table/duration';
import type { Ledger } from '../ledger';
import { intakeThresholds } from '../thresholds';

/**
 * Lines of a case in order of time, stretches of one step that touch or overlap made into one.
 * Lines whose length alone is known keep the order of the file.
 */
export function joinedLines(draft: Draft, ledger: Ledger): Line[] {
  const lines = withoutBroken(draft, ledger);
  const clocked = lines.length > 0 && lines.every(({ start }) => start !== null);
  const ordered = clocked
    ? [...lines].sort((a, b) => (a.start ?? 0) - (b.start ?? 0) || (a.end ?? 0) - (b.end ?? 0))
    : lines;
  const joined: Line[] = [];
  for (const line of ordered) {
    const before = lastOfStep(joined, line);
    if (before === null) joined.push(line);
    else if (before.start === line.start && before.end === line.end) {
      ledger.query(line.row, line.column, line.written, `This row says the same as row ${before.row}; it counts once.`);
    } else {
      if ((line.start ?? 0) < (before.end ?? 0) - intakeThresholds.joinSeconds)
        ledger.query(
          line.row,
          line.column,
          line.written,
          `This stretch overlaps the one of the same step in row ${before.row}; together they count once. Check the clock readings.`,
        );
      before.end = Math.max(before.end ?? 0, line.end ?? 0);
      before.seconds = toMilliseconds(before.end - (before.start ?? 0));
    }
  }
  return joined;
}

/** The stretch of the same step that this one continues: less than a second apart, and no other step begun between. */
function lastOfStep(joined: readonly Line[], line: Line): Line | null {
  const { start } = line;
  if (line.kind !== 'step' || start === null) return null;
  const own = joined.findLast((one) => one.stepId === line.stepId && one.kind === 'step');
  const end = own?.end ?? null;
  if (!own || end === null || start - end >= intakeThresholds.joinSeconds) return null;
  if (Math.max(end, line.end ?? 0) - (own.start ?? 0) > intakeThresholds.longestSeconds) return null;
  const between = joined.some(
    (one) =>
      one.kind === 'step' && one.stepId !== line.stepId && one.start !== null && one.start >= end && one.start < start,
  );
  return between ? null : own;
}

/** What is left of a step after one of its rows could not be read would look too short, so it is left out with it. */
function withoutBroken(draft: Draft, ledger: Ledger): Line[] {
  if (draft.broken.length === 0) return draft.lines;
  return draft.lines.filter((line) => {
    const cause =
      line.kind === 'step'
        ? draft.broken.find(({ stepIds }) => line.stepId !== null && stepIds.includes(line.stepId))
        : undefined;
    if (!cause) return true;
    const why = `Row ${cause.row} of the same step in this case could not be read, and what is left would look too short; so this is not taken either. Correct row ${cause.row}.`;
    if (line.row === cause.row || draft.rows.length === 1) ledger.refuseCell(line.row, line.column, line.written, why);
    else {
      ledger.refuseRow(line.row, line.column, line.written, why);
      draft.rows = draft.rows.filter(({ row }) => row !== line.row);
    }
    return false;
  });
}
