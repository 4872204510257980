/**
 * Cases needed before so many columns are fitted: 15 + 3 a column, the intercept aside. With fewer, a regression spends
 * the cases on facts of the eye and has none left for the change it is asked about.
 */
export const casesForColumns = (columns: number): number => 15 + 3 * columns;

/** How many columns so many cases carry, by the same rule; never below 0. */
export const columnsCarried = (cases: number): number => Math.max(0, Math.floor((cases - casesForColumns(0)) / 3));
