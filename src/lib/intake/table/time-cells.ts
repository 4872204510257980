import { blankOf, blankQuestions, type Blank } from './blanks';
import { cellOf, type Column, type Row } from './column-set';
import { parseDuration, toNumber, type Duration, type PlainNumber } from './duration';
import type { Ask } from '../questions';
import { intakeThresholds } from '../thresholds';

/** Reads the cells of a file that hold times, after asking once what is not said. */
export type TimeReader = (text: string, column: Column, as: 'length' | 'reading') => Duration;

const DECIMAL = /^\d+[.,]\d+$/;
const PLAIN = /^\d+(?:[.,]\d+)?$/;
const THREE_PARTS = /^(\d{1,2}):(\d{1,2}):(\d{2})$/;

/**
 * @param readings whether the cells are clock readings (they only rise) rather than lengths: their size says less.
 */
export function timeReader(rows: readonly Row[], columns: readonly Column[], readings: boolean, ask: Ask): TimeReader {
  const cells = columns.map((column) => ({
    column,
    cells: rows.map((row) => ({ row: row.row, text: cellOf(row, column) })).filter(({ text }) => text !== ''),
  }));
  const shifted = partsShifted(
    cells.flatMap((one) => one.cells),
    ask,
  );
  const plain = plainNumber(cells, readings, ask);
  const asPlain = (column: Column): PlainNumber => {
    if (column.unit === 'minutes') return plain.underMinutes;
    return column.unit === 'seconds' || column.unit === 'minutes-seconds' ? column.unit : plain.elsewhere;
  };
  return (text, column, as) => {
    const parts = shifted ? THREE_PARTS.exec(text.trim()) : null;
    return parseDuration(parts ? `${parts[1]}:${parts[2]}` : text, { as, plain: asPlain(column) });
  };
}

type Cells = readonly { column: Column; cells: readonly { row: number; text: string }[] }[];

/** A sheet shows 1 min 23 s typed as 1:23 as "1:23:00": hours and minutes where minutes and seconds were meant. */
function partsShifted(cells: readonly { row: number; text: string }[], ask: Ask): boolean {
  const three = cells.filter(({ text }) => THREE_PARTS.test(text));
  if (
    three.length === 0 ||
    three.some(({ text }) => !text.endsWith(':00')) ||
    three.every(({ text }) => /^0+:/.test(text))
  )
    return false;
  return (
    ask({
      id: 'three-parts',
      question: `What is ${three[0]?.text}?`,
      options: [
        { value: 'minutes', label: 'minutes and seconds, with a :00 the sheet put behind' },
        { value: 'hours', label: 'hours, minutes and seconds' },
      ],
      guess: 'minutes',
      examples: three,
    }) === 'minutes'
  );
}

/** What is 1.23? Said by the heading, plain from the size of the numbers, or asked. */
function plainNumber(all: Cells, readings: boolean, ask: Ask): { elsewhere: PlainNumber; underMinutes: PlainNumber } {
  const open = all.filter(({ column }) => column.unit === null || column.unit === 'clock' || column.unit === 'minutes');
  const decimals = open.flatMap(({ column, cells }) =>
    cells.filter(({ text }) => DECIMAL.test(text)).map((cell) => ({ ...cell, unit: column.unit })),
  );
  if (decimals.length === 0) return { elsewhere: 'seconds', underMinutes: 'minutes' };
  const fractions = decimals.map(({ text }) => text.split(/[.,]/)[1] ?? '');
  // Minutes and seconds: never above .59, and two places but for a last zero the sheet dropped.
  const likeSeconds =
    fractions.every((part) => part.length <= 2 && Number(part.padEnd(2, '0')) < 60) &&
    fractions.some((part) => part.length === 2);
  const values = open
    .flatMap(({ cells }) => cells.filter(({ text }) => PLAIN.test(text)).map(({ text }) => toNumber(text)))
    .sort((a, b) => a - b);
  const middle = values[Math.floor(values.length / 2)] ?? 0;
  const small = readings
    ? (values.at(-1) ?? 0) < intakeThresholds.readingsEndBelow
    : middle < intakeThresholds.minutesBelow;
  const underMinutes = decimals.some(({ unit }) => unit === 'minutes');
  if (!likeSeconds && !small && !underMinutes) return { elsewhere: 'seconds', underMinutes: 'minutes' };
  const example = decimals[0]?.text ?? '1.23';
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

/**
 * Lengths or clock readings? Rows that only rise are readings: for lengths that is a chance of 1 in n! a row.
 *
 * @param rows values of each row (or case), in order, blanks taken out.
 */
export function areReadings(rows: readonly { row: number; values: readonly number[] }[], ask: Ask): boolean {
  const long = rows.filter(({ values }) => values.length >= intakeThresholds.riseLength);
  const rising = long.filter(({ values }) =>
    values.every((value, index) => index === 0 || value > (values[index - 1] ?? 0)),
  );
  if (rising.length === 0 || rising.length < long.length) return false;
  const evidence = rising.reduce(
    (sum, { values }) => sum + values.reduce((log, _, index) => log + Math.log(index + 1), 0),
    0,
  );
  if (evidence < intakeThresholds.riseEvidence) return false;
  return (
    ask({
      id: 'readings',
      question: 'The numbers only rise. Are they lengths, or readings of a clock?',
      options: [
        { value: 'readings', label: 'readings: each says when its step ended, from 0 at the start' },
        { value: 'lengths', label: 'lengths of each step' },
      ],
      guess: 'readings',
      examples: rising.map(({ row, values }) => ({ row, text: values.slice(0, 6).join(' · ') })),
    }) === 'readings'
  );
}

/** Asks once for each way of leaving a time out that occurs. @returns `true` where it means the step was not done. */
export function blankMeaning(
  cells: readonly { row: number; text: string }[],
  ask: Ask,
): (blank: Blank) => 'not-done' | 'not-timed' {
  const answers = new Map<Blank, 'not-done' | 'not-timed'>([
    ['not-done', 'not-done'],
    ['not-timed', 'not-timed'],
  ]);
  for (const blank of ['zero', 'dash', 'n-a', 'empty'] as const) {
    const found = cells.filter(({ text }) => blankOf(text) === blank);
    if (found.length === 0) continue;
    const { written, guess } = blankQuestions[blank];
    const answer = ask({
      id: `blank:${blank}`,
      question: `What does ${written} mean where a time should be?`,
      options: [
        { value: 'not-done', label: 'the step was not done' },
        { value: 'not-timed', label: 'the step was done, not timed' },
      ],
      guess,
      examples: found.map(({ row, text }) => ({ row, text: text === '' ? 'empty' : text })),
    });
    answers.set(blank, answer === 'not-done' ? 'not-done' : 'not-timed');
  }
  return (blank) => answers.get(blank) ?? 'not-timed';
}
