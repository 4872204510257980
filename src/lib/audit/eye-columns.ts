import type { EyeCaveat, Procedure } from '../model';
import { designMatrix } from '../statistics';
import { codedValue, codingOf, type Coding, type WithFacts } from './eye-coding';
import { factColumns } from './eye-factors';
import type { EyeColumns, StepTable } from './types';

type Placed = { coding: Coding | null; name: string; centre: number };

/**
 * Facts of the eye as columns of a design matrix, centred at the surgeon's typical case (no intercept).
 * Constant and collinear columns are left out and said so.
 *
 * @param options.maxColumns no more than this many: facts enter whole, in the procedure's order, up to the first that does not fit.
 * @param options.columns names fixed earlier: exactly these columns, in this order; a level first seen later joins "other".
 * @param options.centre the fixed columns' values at the typical case, as they were.
 */
export function eyeColumns(
  from: readonly WithFacts[] | StepTable,
  procedure: Procedure,
  options: { maxColumns?: number; columns?: readonly string[]; centre?: readonly number[] } = {},
): EyeColumns {
  const holders = 'cases' in from ? from.cases : from;
  if (options.columns) return fixedColumns(holders, procedure, options.columns, options.centre);
  const caveats: EyeCaveat[] = [];
  const placed: Placed[] = [];
  const columns: Float64Array[] = [];
  for (const fact of procedure.facts) {
    const { codings, caveats: about } = factColumns(holders, fact);
    caveats.push(...about);
    if (codings.length === 0) continue;
    if (placed.length + codings.length > (options.maxColumns ?? Infinity)) {
      caveats.push({ code: 'too-few-from', fact: fact.label });
      break;
    }
    const next = codings.map(({ coding, centre }) => ({ coding, name: coding.name, centre }));
    const built = build(holders, next);
    // Of two columns that say the same the later is left out, so what was taken before stays.
    const { kept } = designMatrix([...columns, ...built], holders.length);
    const before = columns.length;
    const own = built.map((_, index) => kept.includes(before + index));
    own.forEach((independent, index) => {
      const [placing, column] = [next[index], built[index]];
      if (!independent || !placing || !column) return;
      placed.push(placing);
      columns.push(column);
    });
    if (!own.every(Boolean)) caveats.push({ code: own.some(Boolean) ? 'partly-tied' : 'tied', fact: fact.label });
  }
  return { names: placed.map(({ name }) => name), columns, centre: placed.map(({ centre }) => centre), caveats };
}

function fixedColumns(
  holders: readonly WithFacts[],
  procedure: Procedure,
  names: readonly string[],
  centre: readonly number[] | undefined,
): EyeColumns {
  const placed = names.map((name, index): Placed => {
    const coding = codingOf(name, procedure);
    const typical =
      coding && factColumns(holders, coding.fact).codings.find((each) => each.coding.name === name)?.centre;
    return { coding, name, centre: centre?.[index] ?? typical ?? 0 };
  });
  const gone = placed
    .filter(({ coding }) => coding === null)
    .map(({ name }) => ({ code: 'retired', fact: name }) as const);
  return { names, columns: build(holders, placed), centre: placed.map((each) => each.centre), caveats: gone };
}

/** Raw values less the typical case's, one Float64Array a column. */
function build(holders: readonly WithFacts[], placed: readonly Placed[]): Float64Array[] {
  const named = new Map<string, Set<string>>();
  for (const { coding } of placed)
    if (coding?.kind === 'level') named.set(coding.fact.id, (named.get(coding.fact.id) ?? new Set()).add(coding.level));
  const none: ReadonlySet<string> = new Set();
  return placed.map(({ coding, centre }) =>
    Float64Array.from(holders, (holder) =>
      coding ? codedValue(coding, holder, centre, named.get(coding.fact.id) ?? none) - centre : 0,
    ),
  );
}
