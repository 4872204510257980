import { parted, type Steps } from '../../turns';
import { cellOf, type Column } from '../headings/column';
import type { Row } from './cells';
import { parseDuration, toNumber, type Duration, type PlainNumber } from './duration';
import { note, type Ask, type Example } from '../questions';
import { intakeThresholds } from '../thresholds';
import { weights } from '../weights';

/** Reads the cells of a file that hold times, after asking once what is not said. */
export type TimeReader = (text: string, column: Column, as: 'length' | 'reading') => Duration;

const PLAIN = /^\d+(?:[.,]\d+)?$/;
const THREE_PARTS = /^(\d{1,2}):(\d{1,2}):(\d{2})$/;

/**
 * @param readings whether the cells are clock readings (they only rise) rather than lengths: their size says less.
 */
export function* timeReader(
  rows: readonly { row: Row }[],
  columns: readonly Column[],
  readings: boolean,
  ask: Ask,
): Steps<TimeReader> {
  const seen = newSeen();
  for (const part of parted(rows)) {
    yield part.length * weights.cell * (columns.length + 1);
    for (const { row } of part) {
      for (const column of columns) look(seen, row.row, cellOf(row, column), column);
    }
  }
  const shifted = partsShifted(seen, ask);
  const plain = plainNumber(seen, readings, ask);
  const asPlain = (column: Column): PlainNumber => {
    if (column.unit === 'minutes') return plain.underMinutes;
    return column.unit === 'seconds' || column.unit === 'minutes-seconds' ? column.unit : plain.elsewhere;
  };
  return (text, column, as) => {
    const parts = shifted ? THREE_PARTS.exec(text.trim()) : null;
    return parseDuration(parts ? `${parts[1]}:${parts[2]}` : text, { as, plain: asPlain(column) });
  };
}

/** What the times of a file look like, gathered cell by cell. */
const newSeen = () => ({
  three: [] as Example[],
  /** All end in :00, and not all begin with 0. */
  threeAllEnd: true,
  threeSomeHours: false,
  decimals: [] as Example[],
  underMinutes: false,
  /** Minutes and seconds: never above .59, and two places but for a last zero the sheet dropped. */
  fractionsFit: true,
  twoPlaces: false,
  numbers: 0,
  small: 0,
  largest: 0,
});
type Seen = ReturnType<typeof newSeen>;

function look(seen: Seen, row: number, text: string, { unit }: Column): void {
  if (THREE_PARTS.test(text)) {
    note(seen.three, row, text);
    seen.threeAllEnd &&= text.endsWith(':00');
    seen.threeSomeHours ||= !/^0+:/.test(text);
  }
  const open = unit === null || unit === 'clock' || unit === 'minutes';
  if (!open || !PLAIN.test(text)) return;
  const value = toNumber(text);
  seen.numbers += 1;
  seen.largest = Math.max(seen.largest, value);
  if (value < intakeThresholds.minutesBelow) seen.small += 1;
  const fraction = text.split(/[.,]/)[1];
  if (fraction === undefined) return;
  note(seen.decimals, row, text);
  seen.underMinutes ||= unit === 'minutes';
  seen.fractionsFit &&= fraction.length <= 2 && Number(fraction.padEnd(2, '0')) < 60;
  seen.twoPlaces ||= fraction.length === 2;
}

/** A sheet shows 1 min 23 s typed as 1:23 as "1:23:00": hours and minutes where minutes and seconds were meant. */
function partsShifted({ three, threeAllEnd, threeSomeHours }: Seen, ask: Ask): boolean {
  const [first] = three;
  if (!first || !threeAllEnd || !threeSomeHours) return false;
  return (
    ask({
      id: 'three-parts',
      question: `What is ${first.text}?`,
      options: [
        { value: 'minutes', label: 'minutes and seconds, with :00 added by the spreadsheet' },
        { value: 'hours', label: 'hours, minutes and seconds' },
      ],
      guess: 'minutes',
      examples: three,
    }) === 'minutes'
  );
}

/** What is 1.23? Said by the heading, plain from the size of the numbers, or asked. */
function plainNumber(seen: Seen, readings: boolean, ask: Ask): { elsewhere: PlainNumber; underMinutes: PlainNumber } {
  const { decimals, underMinutes } = seen;
  const [first] = decimals;
  const likeSeconds = seen.fractionsFit && seen.twoPlaces;
  // More than half of them below it: the median is.
  const small = readings ? seen.largest < intakeThresholds.readingsEndBelow : seen.small > Math.floor(seen.numbers / 2);
  if (!first || (!likeSeconds && !small && !underMinutes)) return { elsewhere: 'seconds', underMinutes: 'minutes' };
  const example = first.text;
  const answer = ask({
    id: 'plain-number',
    question: `What is ${example}?`,
    options: [
      ...(underMinutes ? [] : [{ value: 'seconds', label: `${example} seconds` }]),
      { value: 'minutes-seconds', label: `minutes and seconds: ${example.split(/[.,]/).join(' min ')} s` },
      { value: 'minutes', label: 'minutes with decimals: .5 is half a minute' },
    ],
    guess: underMinutes || small ? (likeSeconds ? 'minutes-seconds' : 'minutes') : 'seconds',
    examples: decimals,
  });
  const meant: PlainNumber = answer === 'minutes' || answer === 'minutes-seconds' ? answer : 'seconds';
  return { elsewhere: meant, underMinutes: meant === 'seconds' ? 'minutes' : meant };
}
