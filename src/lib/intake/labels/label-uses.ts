import type { Procedure } from '../../model';
import { parted, type Steps } from '../../turns';
import { cellOf, type Column } from '../headings/column';
import { briefly, type Ledger } from '../ledger';
import { note, type Example } from '../questions';
import type { RowFacts } from '../table/row-facts';
import { intakeThresholds } from '../thresholds';
import { weights } from '../weights';

/** A label of the step column, how often it stands there, and where first. */
export type LabelUse = { label: string; rows: number; examples: Example[] };

/** The labels of the step column, by procedure. `null`: so many different ones that it is another column, which is said. */
export function* labelUses(
  rows: readonly RowFacts[],
  column: Column | undefined,
  ledger: Ledger,
): Steps<Map<Procedure, Map<string, LabelUse>> | null> {
  const uses = new Map<Procedure, Map<string, LabelUse>>();
  const distinct = new Set<string>();
  for (const part of parted(rows)) {
    yield part.length * weights.row;
    for (const { row, procedure } of part) {
      const label = cellOf(row, column);
      const ofProcedure = uses.get(procedure) ?? new Map<string, LabelUse>();
      uses.set(procedure, ofProcedure);
      distinct.add(label);
      if (label === '' || distinct.size > intakeThresholds.mostLabels + 1) continue;
      const use = ofProcedure.get(label) ?? { label, rows: 0, examples: [] };
      ofProcedure.set(label, use);
      use.rows += 1;
      note(use.examples, row.row, briefly(label));
    }
  }
  distinct.delete('');
  if (distinct.size <= intakeThresholds.mostLabels) return uses;
  ledger.refuseCell(
    null,
    column?.heading ?? null,
    null,
    `There are ${distinct.size} different names under "${column?.heading ?? ''}"; at most ${intakeThresholds.mostLabels} are read. Choose the column that holds the step.`,
  );
  return null;
}
