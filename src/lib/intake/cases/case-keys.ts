import { parted, type Steps } from '../../turns';
import type { Context } from '../context';
import { intakeThresholds } from '../thresholds';
import { weights } from '../weights';
import { differs, type CaseRows, type Keyed, type Occurrence } from './case-rows';
import { asPlaces, firstOnly, freshlyCoded, placesMeant } from './repeated-codes';

export type CaseFile = {
  oneRowACase: boolean;
  placesSaid: boolean;
  codeHeading: string | null;
  freshCodes: boolean;
};

/**
 * Sorts rows into cases. A code that comes again is the same case only where its rows can belong to one operation;
 * otherwise it is a place in a list, or two cases with one code, of which the later is not taken.
 *
 * @param file.oneRowACase every row is a case of its own.
 * @param file.placesSaid a list sheet with its column of places: then a code that comes again is not a code.
 * @param file.freshCodes new codes are given where the old ones may lead to a patient: then a code that comes again (a
 * second eye) is simply another case, and no old code goes any further.
 */
export function* casesOfRows<Read extends Keyed>(
  rows: readonly Read[],
  file: CaseFile,
  { ask, ledger, taken }: Pick<Context, 'ask' | 'ledger' | 'taken'>,
): Steps<CaseRows<Read>[]> {
  const found = new Map<string, Occurrence<Read>[]>();
  const inOrder: Occurrence<Read>[] = [];
  let last: Occurrence<Read> | null = null;
  const sortIn = (row: Read): void => {
    const { role, code, list, date } = row.facts;
    const key = `${role}\u0000${code}`;
    const all = found.get(key) ?? [];
    if (all.length === 0) found.set(key, all);
    const before = file.oneRowACase ? undefined : all.find((one) => continues(one, row, one === last));
    last = before ?? newOccurrence(row, all[0] ?? null);
    if (before) before.rows.push(row);
    else {
      all.push(last);
      inOrder.push(last);
    }
    last.list ||= list;
    last.date ||= date;
    last.labels.add(row.label);
    const span = clocked(row);
    if (span) last.spans.push(span.start, span.end);
  };
  for (const part of parted(rows)) {
    yield part.length * weights.row;
    for (const row of part) {
      sortIn(row);
    }
  }
  if (file.freshCodes) return yield* freshlyCoded(inOrder, taken);
  const again = [...found.values()].filter((all) => all.length > 1);
  return again.length > 0 && !file.placesSaid && placesMeant(inOrder, again, ask)
    ? yield* asPlaces(inOrder)
    : yield* firstOnly(inOrder, ledger, file.codeHeading);
}

const newOccurrence = <Read extends Keyed>(row: Read, first: Occurrence<Read> | null): Occurrence<Read> => ({
  role: row.facts.role,
  code: row.facts.code,
  first,
  rows: [row],
  list: row.facts.list,
  date: row.facts.date,
  labels: new Set(),
  spans: [],
});

/** Where it stands on the clock; `null` where it has a length alone, or no time. */
const clocked = ({ times }: Keyed): { start: number; end: number } | null =>
  typeof times === 'object' && times.start !== null && times.end !== null
    ? (times as { start: number; end: number })
    : null;

function continues(one: Occurrence<Keyed>, row: Keyed, isLast: boolean): boolean {
  if (differs(one.list, row.facts.list) || differs(one.date, row.facts.date)) return false;
  if (isLast) return true;
  // Rows sorted by step rather than by case come back to a code on a free part of the clock, or with a step it did not have.
  const span = clocked(row);
  return span && one.spans.length > 0 ? isFree(one.spans, span.start, span.end) : !one.labels.has(row.label);
}

/** Is this part of the clock free of the spans (start, end, start, end …)? Seconds. */
function isFree(spans: readonly number[], start: number, end: number): boolean {
  const { joinSeconds } = intakeThresholds;
  for (let at = 0; at < spans.length; at += 2)
    if (start < (spans[at + 1] ?? 0) - joinSeconds && end > (spans[at] ?? 0) + joinSeconds) return false;
  return true;
}
