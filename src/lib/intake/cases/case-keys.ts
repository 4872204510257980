import { itemAt } from '../../item-at';
import type { Procedure } from '../../model';
import { mapped, type Work } from '../../turns';
import type { Context } from '../context';
import type { Ledger } from '../ledger';
import type { Ask } from '../questions';
import type { RowFacts } from '../table/row-facts';
import { intakeThresholds } from '../thresholds';

/** A row with what tells whether it continues a case: the label it carries, and its clock readings. */
export type Keyed = RowFacts & { label: string; start: number | null; end: number | null };

/** One case of the file: its rows, its code, and its list and place where the numbers themselves gave them. */
export type CaseRows = {
  role: RowFacts['role'];
  code: string;
  /** Of its first row. */
  procedure: Procedure;
  rows: readonly [Keyed, ...Keyed[]];
  listNumber: number | null;
  place: number | null;
};

export type CaseFile = {
  oneRowACase: boolean;
  placesSaid: boolean;
  codeHeading: string | null;
  freshCodes: boolean;
};

const ROWS_A_SLICE = 100;

type Occurrence = {
  role: RowFacts['role'];
  code: string;
  rows: [Keyed, ...Keyed[]];
  list: string;
  date: string;
  labels: Set<string>;
  spans: { from: number; to: number }[];
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
export function* casesOfRows(
  rows: readonly Keyed[],
  file: CaseFile,
  { ask, ledger, taken }: Pick<Context, 'ask' | 'ledger' | 'taken'>,
): Work<CaseRows[]> {
  const found = new Map<string, Occurrence[]>();
  const inOrder: Occurrence[] = [];
  let last: Occurrence | null = null;
  const sortIn = (row: Keyed) => {
    const key = `${row.role}\u0000${row.code}`;
    const all = found.get(key) ?? [];
    found.set(key, all);
    const before = file.oneRowACase ? undefined : all.find((one) => continues(one, row, one === last));
    const occurrence = before ?? newOccurrence(row);
    if (before) before.rows.push(row);
    else {
      all.push(occurrence);
      inOrder.push(occurrence);
    }
    occurrence.list ||= row.list;
    occurrence.date ||= row.date;
    occurrence.labels.add(row.label);
    if (row.start !== null && row.end !== null) occurrence.spans.push({ from: row.start, to: row.end });
    last = occurrence;
  };
  yield* mapped(rows, sortIn, ROWS_A_SLICE);
  if (file.freshCodes) {
    // They count on from the first that is free; no key to the old ones is kept.
    let next = 0;
    const fresh = () => {
      do next += 1;
      while (taken.has(`C${next}`));
      return `C${next}`;
    };
    return yield* mapped(inOrder, (one) => caseOf(one, fresh()));
  }
  const again = inOrder.length === found.size ? [] : [...found.values()].filter((all) => all.length > 1);
  if (again.length === 0) return yield* mapped(inOrder, (one) => caseOf(one));
  return !file.placesSaid && askAboutAgain(inOrder, again, ask) === 'places'
    ? yield* asPlaces(inOrder)
    : yield* firstOnly(inOrder, found, ledger, file.codeHeading);
}

const newOccurrence = (row: Keyed): Occurrence => ({
  role: row.role,
  code: row.code,
  rows: [row],
  list: row.list,
  date: row.date,
  labels: new Set(),
  spans: [],
});

const caseOf = ({ role, code, rows }: Occurrence, as = code): CaseRows => ({
  role,
  code: as,
  procedure: rows[0].procedure,
  rows,
  listNumber: null,
  place: null,
});

const differs = (a: string, b: string): boolean => a !== '' && b !== '' && a !== b;

function continues(one: Occurrence, row: Keyed, isLast: boolean): boolean {
  if (differs(one.list, row.list) || differs(one.date, row.date)) return false;
  if (isLast) return true;
  // Rows sorted by step rather than by case come back to a code on a free part of the clock, or with a step it did not have.
  const { start, end } = row;
  if (start !== null && end !== null && one.spans.length > 0)
    return one.spans.every(
      ({ from, to }) => start >= to - intakeThresholds.joinSeconds || end <= from + intakeThresholds.joinSeconds,
    );
  return !one.labels.has(row.label);
}

function askAboutAgain(
  inOrder: readonly Occurrence[],
  again: readonly (readonly Occurrence[])[],
  ask: Ask,
): 'places' | 'first' {
  const numbers = inOrder.every(
    ({ code }) => /^\d{1,2}$/.test(code) && Number(code) >= 1 && Number(code) <= intakeThresholds.longestList,
  );
  const onLists = again.every((all) =>
    all.every(
      (one, index) => index === 0 || differs(all[0]?.list ?? '', one.list) || differs(all[0]?.date ?? '', one.date),
    ),
  );
  const answer = ask({
    id: 'repeats',
    question: `${again.length === 1 ? 'A case code comes' : `${again.length} case codes come`} again for another operation. Are they places in a list?`,
    options: [
      { value: 'places', label: 'yes: the code becomes list and number' },
      { value: 'first', label: 'no: take the first of each, name the others' },
    ],
    guess: numbers && (again.length > 1 || onLists) ? 'places' : 'first',
    examples: again
      .slice(0, intakeThresholds.examples)
      .flatMap((all) => all.slice(0, intakeThresholds.examples))
      .map(({ rows: [{ row }], code }) => ({ row: row.row, text: code })),
  });
  return answer === 'places' ? 'places' : 'first';
}

/** Numbers that begin again begin a new list, where neither list nor date says so. */
function* asPlaces(inOrder: readonly Occurrence[]): Work<CaseRows[]> {
  const numbers = inOrder.map(({ code }) => Number(code));
  const falls = numbers.filter((number, index) => index > 0 && number < itemAt(numbers, index - 1)).length;
  const newestFirst = falls > numbers.length / 2;
  const names = new Map<string, number>();
  let listNumber = 1;
  return yield* mapped(inOrder, (occurrence, index) => {
    const number = itemAt(numbers, index);
    const previous = numbers[index - 1] ?? (newestFirst ? Infinity : -Infinity);
    if (index > 0 && (newestFirst ? number >= previous : number <= previous)) listNumber += 1;
    const written = `${occurrence.list}\u0000${occurrence.date}`;
    const named = occurrence.list !== '' || occurrence.date !== '';
    if (named && !names.has(written)) names.set(written, names.size + 1);
    const list = named ? (names.get(written) ?? 0) : listNumber;
    const place = /^\d+$/.test(occurrence.code) && number > 0 ? number : null; // there is no place 0
    return { ...caseOf(occurrence, `L${list}-${occurrence.code}`), listNumber: named ? null : list, place };
  });
}

function* firstOnly(
  inOrder: readonly Occurrence[],
  found: ReadonlyMap<string, readonly Occurrence[]>,
  ledger: Ledger,
  heading: string | null,
): Work<CaseRows[]> {
  const taken = yield* mapped(inOrder, (occurrence) => {
    const { role, code, rows } = occurrence;
    const [first = occurrence] = found.get(`${role}\u0000${code}`) ?? [];
    if (occurrence === first) return caseOf(occurrence);
    for (const { row } of rows)
      ledger.refuseRow(
        row.row,
        heading,
        code,
        `Two cases have the code "${code}": the first begins in row ${first.rows[0].row.row}. Give this one a code of its own.`,
      );
    return null;
  });
  return taken.filter((one) => one !== null);
}
