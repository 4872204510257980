import { median } from '../statistics';
import type { EyeCaveat, EyeFact } from '../model';
import {
  factOf,
  levelCoding,
  missingCoding,
  otherCoding,
  plainCoding,
  type Coding,
  type WithFacts,
} from './eye-coding';
import { auditThresholds } from './thresholds';

/** The columns one fact gives, each with its value at the typical case, and what had to be left out. */
export type FactColumns = { codings: readonly { coding: Coding; centre: number }[]; caveats: readonly EyeCaveat[] };

const none = (caveat: EyeCaveat): FactColumns => ({ codings: [], caveats: [caveat] });

/**
 * Columns of one fact in these cases: choices against the commonest level, yes/no as 0/1, numbers as they are;
 * levels with fewer than five cases pooled; a "not entered" column where five or more lack it.
 */
export function factColumns(holders: readonly WithFacts[], fact: EyeFact): FactColumns {
  const values = holders.map((holder) => factOf(holder, fact));
  const entered = values.filter((value) => value !== null);
  const missing = values.length - entered.length;
  // A fact nobody entered is not worth saying: most procedures offer more facts than anyone fills in.
  if (entered.length === 0) return { codings: [], caveats: [] };
  if (missing > auditThresholds.missingShare * values.length)
    return none({ code: 'few-entered', fact: fact.label, entered: entered.length, of: values.length });
  const usable =
    fact.kind === 'number' ? numberColumn(fact, entered.map(Number)) : levelColumns(fact, entered.map(String));
  if (usable.codings.length === 0 || missing < auditThresholds.notEnteredCases) return usable;
  return { ...usable, codings: [...usable.codings, { coding: missingCoding(fact), centre: 0 }] };
}

function numberColumn(fact: EyeFact, entered: readonly number[]): FactColumns {
  if (entered.every((value) => value === entered[0])) return none({ code: 'all-the-same', fact: fact.label });
  return { codings: [{ coding: plainCoding(fact), centre: median(entered) }], caveats: [] };
}

function levelColumns(fact: EyeFact, entered: readonly string[]): FactColumns {
  const counts = countLevels(fact, entered);
  const [commonest, ...others] = [...counts].sort((a, b) => b[1] - a[1]);
  if (!commonest || others.length === 0) return none({ code: 'all-the-same', fact: fact.label });
  const [commonestLevel] = commonest;
  const large = [...counts].filter(([level, count]) => level !== commonestLevel && count >= auditThresholds.levelCases);
  const rest = others.reduce((sum, [, count]) => sum + count, 0) - large.reduce((sum, [, count]) => sum + count, 0);
  if (large.length === 0 && rest < auditThresholds.levelCases)
    return none({ code: 'few-differ', fact: fact.label, differ: rest, of: entered.length });
  if (fact.kind === 'yes-no')
    return { codings: [{ coding: plainCoding(fact), centre: commonestLevel === 'true' ? 1 : 0 }], caveats: [] };
  const codings = large.map(([level]) => ({ coding: levelCoding(fact, level, commonestLevel), centre: 0 }));
  if (rest >= auditThresholds.levelCases)
    return { codings: [...codings, { coding: otherCoding(fact, commonestLevel), centre: 0 }], caveats: [] };
  const pooled = rest > 0 ? [{ code: 'rare-levels', fact: fact.label, rare: rest, of: entered.length } as const] : [];
  return { codings, caveats: pooled };
}

/** Counts in the procedure's order of levels, unknown levels after them by name: ties never depend on the order of cases. */
function countLevels(fact: EyeFact, entered: readonly string[]): Map<string, number> {
  const order = fact.kind === 'yes-no' ? ['false', 'true'] : (fact.levels ?? []).map(({ id }) => id);
  const unknown = [...new Set(entered)].filter((level) => !order.includes(level)).sort();
  const counts = new Map([...order, ...unknown].map((level) => [level, 0]));
  for (const level of entered) counts.set(level, (counts.get(level) ?? 0) + 1);
  for (const [level, count] of counts) if (count === 0) counts.delete(level);
  return counts;
}
