import type { Procedure } from '../../model';
import { parted, type Steps } from '../../turns';
import { readHands } from '../cases/hands';
import { targetValue } from '../headings/targets';
import { remembered } from '../labels/once-per';
import { plainWords } from '../labels/plain-words';
import { chaptersAlone, isChapters } from '../stretches/chapters';
import { STAND_IN } from '../table/case-codes';
import { cellsOf, type Row } from '../table/cells';
import { headingIsNotKept, headingPointsToAPerson } from '../table/people';
import { isSummaryName } from '../table/summary-rows';
import { intakeThresholds } from '../thresholds';
import { weights } from '../weights';
import { atFirstSight } from './at-first-sight';
import {
  codesTell,
  distinctIn,
  namesNobody,
  pointsToAPerson,
  tellingCells,
  type SaidOfCodes,
  type TellingCodes,
} from './who-is-named';
import { writtenBack } from './write-back';

/** What was taken out of a text, and where: for the page that says so. */
export type TakenOut = {
  /** Headings of columns of which nothing is left. */
  columns: readonly string[];
  /** Rows in which something else looked like a person. */
  rows: readonly number[];
  /** The codes of the cases were replaced: by their heading, or by what they look like, they could lead to patients. */
  codes: TellingCodes | null;
};

export type WithoutPeople = {
  text: string;
  out: TakenOut;
  /** What stands for a surgeon, or under the hands, in the text, to what was written. Never stored. */
  surgeons: ReadonlyMap<string, string>;
};

/** Columns that are read and in which people write who operated. */
const NAMES_PERSONS = /^(own:(surgeon|hands|case-hands)|step-hands:.*)$/;

/** Stands where something was taken out: an empty cell would be another row, and would be asked about. */
const GONE = '…';

/**
 * A text to be kept while somebody looks at it, without what looks like a person: columns that point to one or say too much
 * about who it was, cells of columns that are not read, codes that could lead to a patient, names of surgeons. Rows keep
 * their numbers, and the columns that are read what they say. A text with nothing of the kind comes back as it is.
 *
 * @param said of the codes
 */
export function* withoutPeople(
  text: string,
  procedures: readonly Procedure[],
  said: SaidOfCodes,
): Steps<WithoutPeople> {
  const nothing: WithoutPeople = { text, out: { columns: [], rows: [], codes: null }, surgeons: new Map() };
  if (isChapters(text)) return { ...nothing, text: chaptersAlone(text, pointsToAPerson) };
  const sheet = yield* cellsOf(text);
  if ('problem' in sheet) return nothing;
  const { headings, columns, code, body, above } = yield* atFirstSight(sheet, procedures);
  const surgeons = new Map<string, string>();
  const gone: string[] = [];
  const changed = new Map<number, string[]>();
  const touched = new Set<number>();
  const change = ({ row, cells }: Row, index: number, to: string) => {
    const now = changed.get(row) ?? [...cells];
    now[index] = to;
    changed.set(row, now);
  };

  for (const row of above)
    for (const [index, cell] of row.cells.entries()) {
      yield weights.name;
      if (!pointsToAPerson(cell)) continue;
      change(row, index, GONE);
      touched.add(row.row);
    }

  const hands = new Map<string, string>();
  const isSummary = remembered(isSummaryName);
  let codes: TellingCodes | null = null;
  for (const [index, column] of columns.entries()) {
    const heading = headings[index] ?? '';
    const textOf = (row: Row) => row.cells[index] ?? '';
    const names = column !== null && NAMES_PERSONS.test(targetValue(column.target));
    if (index !== code && !names && column && column.target.what !== 'leave') continue;
    yield weights.column;
    const cells = body.filter((row) => textOf(row) !== '' && !isSummary(textOf(row)));
    if (index === code) {
      codes = yield* codesTell(cells, index, heading, said);
      const standIns = new Map<string, string>();
      if (codes !== null) yield* forEach(cells, (row) => change(row, index, numbered(standIns, textOf(row), STAND_IN)));
    } else if (names) {
      const word = targetValue(column.target) === 'own:surgeon' ? 'surgeon' : 'person';
      const standIns = word === 'surgeon' ? new Map<string, string>() : hands;
      const isKept = remembered((text) => namesNobody(text) || (word === 'person' && saysHands(text)));
      yield* forEach(cells, (row) => {
        if (isKept(textOf(row))) return;
        const standIn = numbered(standIns, plainWords(textOf(row)), word);
        if (!surgeons.has(standIn)) surgeons.set(standIn, textOf(row));
        change(row, index, standIn);
      });
    } else {
      const whole = headingPointsToAPerson(heading) || headingIsNotKept(heading);
      const telling = whole ? null : yield* tellingCells(cells, index);
      if (telling?.size === 0) continue;
      const all = telling === null || telling.size >= intakeThresholds.personShare * distinctIn(cells, index);
      if (all && cells.length > 0) gone.push(heading || `column ${index + 1}`);
      yield* forEach(cells, (row) => {
        if (!all && !telling.has(textOf(row))) return;
        change(row, index, GONE);
        if (!all) touched.add(row.row);
      });
    }
  }
  if (changed.size === 0) return nothing;
  const rows = [...touched].sort((one, other) => one - other);
  return { text: yield* writtenBack(sheet, changed), out: { columns: gone, rows, codes }, surgeons };
}

/** Words for hands, or a key of the list sheet with its steps ("B capsulorhexis, IOL"). */
const saysHands = (text: string): boolean =>
  readHands(text) !== undefined || (/^[omsbt][\s:.,-]/i.test(text) && !pointsToAPerson(text.slice(2)));

function* forEach(rows: readonly Row[], act: (row: Row) => void): Steps<void> {
  for (const part of parted(rows)) {
    yield part.length * weights.cell;
    for (const row of part) act(row);
  }
}

function numbered(standIns: Map<string, string>, of: string, word: string): string {
  const standIn = standIns.get(of) ?? `${word} ${standIns.size + 1}`;
  standIns.set(of, standIn);
  return standIn;
}
