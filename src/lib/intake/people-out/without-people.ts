import type { Procedure } from '../../model';
import type { Steps } from '../../turns';
import { readHands } from '../cases/hands';
import { targetValue } from '../headings/targets';
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
  let codes: TellingCodes | null = null;
  for (const [index, column] of columns.entries()) {
    const heading = headings[index] ?? '';
    const cells = body.filter((row) => (row.cells[index] ?? '') !== '' && !isSummaryName(row.cells[index] ?? ''));
    if (index === code) {
      codes = yield* codesTell(cells, index, heading, said);
      if (codes === null) continue;
      const standIns = new Map<string, string>();
      for (const row of cells) {
        yield weights.cell;
        change(row, index, numbered(standIns, row.cells[index] ?? '', STAND_IN));
      }
    } else if (column && NAMES_PERSONS.test(targetValue(column.target))) {
      const word = column.target.what === 'own' && column.target.id === 'surgeon' ? 'surgeon' : 'person';
      const standIns = word === 'surgeon' ? new Map<string, string>() : hands;
      for (const row of cells) {
        yield weights.cell;
        const name = row.cells[index] ?? '';
        if (namesNobody(name) || (word === 'person' && saysHands(name))) continue;
        const standIn = numbered(standIns, plainWords(name), word);
        if (!surgeons.has(standIn)) surgeons.set(standIn, name);
        change(row, index, standIn);
      }
    } else {
      if (column && column.target.what !== 'leave') continue;
      const whole = headingPointsToAPerson(heading) || headingIsNotKept(heading);
      const telling = whole ? null : yield* tellingCells(cells, index);
      if (telling?.size === 0) continue;
      const all = telling === null || telling.size >= intakeThresholds.personShare * distinctIn(cells, index);
      if (all && cells.length > 0) gone.push(heading || `column ${index + 1}`);
      for (const row of cells) {
        yield weights.cell;
        if (!all && !telling.has(row.cells[index] ?? '')) continue;
        change(row, index, GONE);
        if (!all) touched.add(row.row);
      }
    }
  }
  if (changed.size === 0) return nothing;
  const rows = [...touched].sort((one, other) => one - other);
  return { text: yield* writtenBack(sheet, changed), out: { columns: gone, rows, codes }, surgeons };
}

/** Words for hands, or a key of the list sheet with its steps ("B capsulorhexis, IOL"). */
const saysHands = (text: string): boolean =>
  readHands(text) !== undefined || (/^[omsbt][\s:.,-]/i.test(text) && !pointsToAPerson(text.slice(2)));

function numbered(standIns: Map<string, string>, of: string, word: string): string {
  const standIn = standIns.get(of) ?? `${word} ${standIns.size + 1}`;
  standIns.set(of, standIn);
  return standIn;
}
