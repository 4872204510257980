import { columnsCarried } from '../statistics';
import { eyeColumns, stepTable, type EyeColumns, type StepTable } from '../audit';
import type { Case, FrozenModel, ListRecord, Procedure } from '../model';
import { restStepsOf } from './rest-steps';
import { practiceThresholds as set } from './thresholds';

/** Cases as the arrays the core computes on. */
export type CaseArrays = {
  table: StepTable;
  /** ln seconds, [step][case]; NaN where absent. */
  y: readonly Float64Array[];
  stepIndex: number;
  eye: EyeColumns;
  columns: readonly Float64Array[];
  list: Int32Array;
  listsKnown: boolean;
  /** Which steps may stand for the rest of a given one. */
  othersOf: (step: number) => number[];
};

/**
 * @param cases in any order; the arrays are in order of time
 * @param options.frozen columns fixed when the goal started; without them they are made from these cases
 */
export function caseArrays(
  cases: readonly Case[],
  procedure: Procedure,
  lists: readonly ListRecord[],
  stepId: string,
  options: { frozen?: Pick<FrozenModel, 'columns' | 'centre'> | null; underGoal?: readonly string[] } = {},
): CaseArrays {
  const table = stepTable(cases, procedure, lists, { wanted: [stepId] });
  const eye = options.frozen
    ? eyeColumns(table, procedure, { columns: options.frozen.columns, centre: options.frozen.centre })
    : eyeColumns(table, procedure, { maxColumns: columnsCarried(table.cases.length) });
  const y = table.seconds.map((row) =>
    row.map((value) => (value > 0 && Number.isFinite(value) ? Math.log(value) : NaN)),
  );
  const timedIn = (id: string) => (y[table.stepIds.indexOf(id)] ?? new Float64Array(0)).filter(Number.isFinite).length;
  const usable = (id: string) => timedIn(id) >= 2 * set.restCasesEachPeriod;
  return {
    table,
    y,
    stepIndex: table.stepIds.indexOf(stepId),
    eye,
    columns: eye.columns,
    list: table.list,
    listsKnown: table.listsFrom !== 'blocks',
    othersOf: (step) =>
      restStepsOf(procedure, table.stepIds, table.stepIds[step] ?? '', { underGoal: options.underGoal, usable }).map(
        (id) => table.stepIds.indexOf(id),
      ),
  };
}
