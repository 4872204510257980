import type { RunParts, RunView } from './after-chart';

/** The window the result is of; periods after it are the following twenties. */
const WINDOW = 1;

/**
 * The run of cases up to its window and, where twenties follow, the whole beside it. What came later is history: it says
 * whether it lasted, not what the result rests on.
 */
export function runParts(run: RunView): RunParts {
  if (run.periods.length <= WINDOW + 1) return { ...run, whole: null };
  const within = run.cases.map(({ period }) => period <= WINDOW);
  return {
    ...run,
    cases: run.cases.filter((_, at) => within[at]),
    periods: run.periods.slice(0, WINDOW + 1),
    table: { ...run.table, rows: run.table.rows.filter((_, at) => within[at]) },
    whole: { ...run, title: 'The run with the twenties after it' },
  };
}
