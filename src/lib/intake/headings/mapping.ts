import type { Procedure } from '../../model';
import type { Sheet } from '../table/cells';
import { columnKeys } from './column-set';
import { standInHeadings } from './find-headings';
import { headingMatcher } from './headings';
import { meaningWords, planValue, type LabelPlan } from '../labels/label-plan';
import { textPointsToAPerson } from '../table/people';
import type { Option } from '../questions';
import type { Table } from './table';
import { allTargets, leave, targetOf, targetValue, targetWords } from './targets';

/** How one heading or label was understood. `key` is the field that changes it, `value` what is chosen now. */
export type Mapping = {
  kind: 'column' | 'label';
  key: string;
  from: string;
  to: string;
  value: string;
  how: 'exact' | 'loose' | 'position' | 'chosen' | 'none';
  rows: number | null;
};

/** How a sheet that was read was understood, column by column and label by label. */
export function mappingOf({ set, procedure }: Table, plans: readonly LabelPlan[], chapters: boolean): Mapping[] {
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

/** A sheet whose headings make no layout, or that has none: each column can be given its meaning by hand. */
export function mappingOfUnread(
  { rows }: Sheet,
  procedure: Procedure,
  choices: Readonly<Record<string, string>>,
): { mapping: Mapping[]; options: Option[] } {
  const headings = standInHeadings(rows[0]?.cells ?? []);
  // Headings and nothing under them: there is nothing to choose.
  if (rows.length === 1 && headings === rows[0]?.cells) return { mapping: [], options: [] };
  const keys = columnKeys(headings);
  const match = headingMatcher(procedure, 'stretches');
  const mapping = headings.flatMap((heading, index): Mapping[] => {
    const key = keys[index] ?? '';
    const chosen = targetOf(choices[key] ?? '', procedure);
    const target = chosen ?? match(heading).targets[0] ?? leave('unknown');
    // A first row of words may be a person's data all the same: such a cell is shown by its number.
    const from = textPointsToAPerson(heading) ? `column ${index + 1}` : heading;
    const base = { kind: 'column' as const, key, from, rows: null };
    return [
      { ...base, to: targetWords(target, procedure), value: targetValue(target), how: chosen ? 'chosen' : 'none' },
    ];
  });
  const both = [...allTargets(procedure, 'stretches'), ...allTargets(procedure, 'cases')];
  return {
    mapping,
    options: both.filter(({ value }, index) => both.findIndex((one) => one.value === value) === index),
  };
}
