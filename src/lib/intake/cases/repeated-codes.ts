import { itemAt } from '../../item-at';
import type { Steps } from '../../turns';
import type { Ledger } from '../ledger';
import type { Ask } from '../questions';
import { intakeThresholds } from '../thresholds';
import { weights } from '../weights';
import { caseOf, differs, type CaseRows, type Keyed, type Occurrence } from './case-rows';

/** Is a code that comes again a place in a list? Asked once a file. */
export function placesMeant(
  inOrder: readonly Occurrence<Keyed>[],
  again: readonly (readonly Occurrence<Keyed>[])[],
  ask: Ask,
): boolean {
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
      .map(({ rows: [{ facts }], code }) => ({ row: facts.row.row, text: code })),
  });
  return answer === 'places';
}

/** Numbers that begin again begin a new list, where neither list nor date says so. */
export function* asPlaces<Read extends Keyed>(inOrder: readonly Occurrence<Read>[]): Steps<CaseRows<Read>[]> {
  const numbers = inOrder.map(({ code }) => Number(code));
  const falls = numbers.filter((number, index) => index > 0 && number < itemAt(numbers, index - 1)).length;
  const newestFirst = falls > numbers.length / 2;
  const names = new Map<string, number>();
  const cases: CaseRows<Read>[] = [];
  let listNumber = 1;
  for (const [index, occurrence] of inOrder.entries()) {
    yield weights.row;
    const number = itemAt(numbers, index);
    const previous = numbers[index - 1] ?? (newestFirst ? Infinity : -Infinity);
    if (index > 0 && (newestFirst ? number >= previous : number <= previous)) listNumber += 1;
    const written = `${occurrence.list}\u0000${occurrence.date}`;
    const named = occurrence.list !== '' || occurrence.date !== '';
    if (named && !names.has(written)) names.set(written, names.size + 1);
    const list = named ? (names.get(written) ?? 0) : listNumber;
    const place = /^\d+$/.test(occurrence.code) && number > 0 ? number : null; // there is no place 0
    const one = caseOf(occurrence, `L${list}-${occurrence.code}`);
    cases.push({ ...one, listNumber: named ? null : list, place });
  }
  return cases;
}

/** The first case under each code; a later one is named. */
export function* firstOnly<Read extends Keyed>(
  inOrder: readonly Occurrence<Read>[],
  ledger: Ledger,
  heading: string | null,
): Steps<CaseRows<Read>[]> {
  const cases: CaseRows<Read>[] = [];
  for (const occurrence of inOrder) {
    yield weights.row;
    const { first, code, rows } = occurrence;
    if (first === null) cases.push(caseOf(occurrence));
    else
      for (const { facts } of rows)
        ledger.refuseRow(
          facts.row.row,
          heading,
          code,
          `Two cases have the code "${code}": the first begins in row ${first.rows[0].facts.row.row}. Give this one a code of its own.`,
        );
  }
  return cases;
}

/** New codes count on from the first that is free; no key to the old ones is kept. */
export function* freshlyCoded<Read extends Keyed>(
  inOrder: readonly Occurrence<Read>[],
  taken: ReadonlySet<string>,
): Steps<CaseRows<Read>[]> {
  const cases: CaseRows<Read>[] = [];
  let next = 0;
  for (const occurrence of inOrder) {
    yield weights.row;
    do next += 1;
    while (taken.has(`C${next}`));
    cases.push(caseOf(occurrence, `C${next}`));
  }
  return cases;
}
