import type { Steps } from '../../turns';
import type { ValuePlan } from '../cases/fact-values';
import type { Context } from '../context';
import { labelOptions, meaningWords, planValue, type LabelPlan } from '../labels/label-plan';
import type { Option } from '../questions';
import type { NoSheet, Sheet } from '../table/cells';
import { textPointsToAPerson } from '../table/people';
import { standInHeadings } from './find-headings';
import { readHeadings } from './read-headings';
import type { Table } from './table';
import { allTargets, leave, targetValue, targetWords, type Layout } from './targets';

/**
 * How one heading, label or word under a fact of the eye was understood. `key` is the field that changes it, `value` what is
 * chosen now; `options` where this one has its own.
 */
export type Mapping = {
  kind: 'column' | 'label' | 'value';
  key: string;
  from: string;
  to: string;
  value: string;
  how: 'exact' | 'loose' | 'position' | 'chosen' | 'none';
  rows: number | null;
  options?: readonly Option[];
};

/** How a file was understood, to be shown and corrected. */
export type Understood = {
  layout: Layout | 'chapters' | null;
  procedureId: string | null;
  mapping: Mapping[];
  /** What a column or a label can be, to choose from. */
  columnOptions: Option[];
  labelOptions: Option[];
};

/** A sheet that was read: column by column and label by label. */
export const understood = (table: Table, plans: readonly LabelPlan[], values: readonly ValuePlan[]): Understood => ({
  layout: table.chapters ? 'chapters' : table.layout,
  procedureId: table.procedure.id,
  mapping: [...mappingOf(table, plans), ...values.map(valueMapping)],
  columnOptions: allTargets(table.procedure, table.layout),
  labelOptions: labelOptions(table.procedure),
});

/** A sheet whose headings make no layout, or that has none: each column can be given its meaning by hand. */
export function* notUnderstood(sheet: Sheet | NoSheet, { procedures, choices }: Context): Steps<Understood> {
  const nothing: Understood = { layout: null, procedureId: null, mapping: [], columnOptions: [], labelOptions: [] };
  const [procedure] = procedures;
  if ('problem' in sheet || sheet.chapters || !procedure) return nothing;
  const first = sheet.rows[0]?.cells ?? [];
  const cells = standInHeadings(first);
  // Headings and nothing under them: there is nothing to choose.
  if (sheet.rows.length === 1 && cells === first) return nothing;
  const headings = yield* readHeadings(cells, procedure, 'stretches', choices);
  const mapping = headings.map(({ text, key, chosen, match }, index): Mapping => {
    const target = chosen ?? match?.targets[0] ?? leave('unknown');
    return {
      kind: 'column',
      key,
      // A first row of words may be a person's data all the same: such a cell is shown by its number.
      from: textPointsToAPerson(text) ? `column ${index + 1}` : text,
      to: targetWords(target, procedure),
      value: targetValue(target),
      how: chosen ? 'chosen' : 'none',
      rows: null,
    };
  });
  const both = [...allTargets(procedure, 'stretches'), ...allTargets(procedure, 'cases')];
  const columnOptions = [...new Map(both.map((option) => [option.value, option])).values()];
  return { ...nothing, mapping, columnOptions };
}

const valueMapping = ({ key, fact, written, value, to, how, rows, options }: ValuePlan): Mapping => ({
  kind: 'value',
  key,
  from: `${fact}: ${written}`,
  to,
  value,
  how,
  rows,
  options,
});

function mappingOf({ set, procedure, chapters }: Table, plans: readonly LabelPlan[]): Mapping[] {
  const columns = chapters ? [] : set.columns.filter(({ heading }) => heading !== '');
  return [
    ...columns.map(({ key, heading, target, how }) => ({
      kind: 'column' as const,
      key,
      from: heading,
      to: targetWords(target, procedure),
      value: targetValue(target),
      how,
      rows: null,
    })),
    ...plans.map((plan) => ({
      kind: 'label' as const,
      key: plan.key,
      from: plan.label,
      to: plan.meanings.map((meaning) => meaningWords(meaning, procedure)).join(' or ') || 'left out',
      value: planValue(plan),
      how: plan.how,
      rows: plan.rows,
    })),
  ];
}
