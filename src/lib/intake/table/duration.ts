import { intakeThresholds } from '../thresholds';

/** What a number without a unit means. `minutes-seconds`: 1.23 is one minute and 23 seconds. */
export type PlainNumber = 'seconds' | 'minutes' | 'minutes-seconds';

export type Duration = { seconds: number } | { problem: string };

const NUMBER = String.raw`\d+(?:[.,]\d+)?|[.,]\d+`;
const PLAIN = new RegExp(`^(?:${NUMBER})$`);
const CLOCK = new RegExp(String.raw`^(?:(\d{1,2}):)?(\d{1,3}):(\d{1,2}(?:[.,]\d+)?)$`);
const UNITS = new RegExp(
  `^(?:(${NUMBER})\\s*(?:h|hr|hrs|hour|hours)\\.?)?\\s*(?:(${NUMBER})\\s*(?:m|min|mins|minute|minutes|['′’])\\.?)?\\s*` +
    `(?:(${NUMBER})\\s*(?:s|sec|secs|second|seconds|["”]|''|′′)?\\.?)?$`,
);

/** Letters of the longest way to write a time, with room: "1 hour 23 minutes 45.678 seconds". */
const LONGEST_WRITTEN = 80;

/** Decimal point or comma; whole milliseconds, so that 0.1 + 0.2 is never a question. */
export const toNumber = (text: string): number => Number(text.includes(',') ? text.replace(',', '.') : text);
export const toMilliseconds = (seconds: number): number => Math.round(seconds * 1000) / 1000;

/**
 * Reads one duration or clock reading: `83`, `83 s`, `1:23`, `1m23s`, `0:01:23`, `1 min 23 s`, decimal point or comma.
 *
 * @param options.as `length` (default) refuses zero and more than two hours; a `reading` of a clock may be 0.
 * @param options.plain what a bare number means; seconds unless said.
 * @returns seconds, or what is wrong and what to do, in a sentence.
 */
export function parseDuration(
  text: string,
  options: { as?: 'length' | 'reading'; plain?: PlainNumber } = {},
): Duration {
  if (text.length > LONGEST_WRITTEN)
    return { problem: 'This is too long to be a time. Type seconds (83) or minutes and seconds (1:23).' };
  // Most cells are plain numbers, on which the rest has nothing to do.
  const written = /^\d+(?:\.\d+)?$/.test(text)
    ? text
    : text.normalize('NFKC').replace(/\s+/g, ' ').trim().toLowerCase();
  if (written === '') return { problem: 'There is no time here. Type seconds (83) or minutes and seconds (1:23).' };
  if (/^[-−–]/.test(written))
    return { problem: `${text.trim()} is below zero. A time cannot be negative; check the two clock readings.` };
  const read = readWritten(written, options.plain ?? 'seconds');
  if ('problem' in read) return read;
  const seconds = toMilliseconds(read.seconds);
  if (options.as === 'reading') return { seconds };
  if (seconds === 0) return { problem: 'The time is zero. Leave the field empty for a step not done.' };
  if (seconds > intakeThresholds.longestSeconds)
    return { problem: `${text.trim()} is more than two hours. Is it a clock reading, or in another unit?` };
  return { seconds };
}

function readWritten(written: string, plain: PlainNumber): Duration {
  if (PLAIN.test(written)) return readPlain(written, plain);
  const clock = CLOCK.exec(written);
  if (clock) return readClock(written, clock);
  const units = UNITS.exec(written);
  if (units && units.slice(1).some((part) => part !== undefined)) return readUnits(written, units);
  return { problem: `"${written}" is not a time. Type seconds (83) or minutes and seconds (1:23).` };
}

function readPlain(written: string, plain: PlainNumber): Duration {
  const value = toNumber(written);
  if (plain === 'seconds') return { seconds: value };
  if (plain === 'minutes') return { seconds: value * 60 };
  // A sheet drops the last zero of 1.50, so one place stands for tens of seconds.
  const [minutes = '0', fraction = '0'] = written.split(/[.,]/);
  const seconds = Number(fraction.length === 1 ? `${fraction}0` : fraction);
  if (fraction.length > 2 || seconds > 59)
    return {
      problem: `${written} cannot be minutes and seconds: ${fraction} is not between 00 and 59. Type 1:23 for 1 min 23 s.`,
    };
  return { seconds: Number(minutes || '0') * 60 + seconds };
}

function readClock(written: string, [, hours, minutes = '0', seconds = '0']: RegExpExecArray): Duration {
  if (toNumber(seconds) >= 60)
    return {
      problem: `${written} has ${seconds} seconds; only 00 to 59 is possible after the colon. Check the value.`,
    };
  if (hours !== undefined && Number(minutes) >= 60)
    return {
      problem: `${written} has ${minutes} minutes beside hours; only 00 to 59 is possible there. Check the value.`,
    };
  return { seconds: Number(hours ?? 0) * 3600 + Number(minutes) * 60 + toNumber(seconds) };
}

function readUnits(written: string, [, hours, minutes, seconds]: RegExpExecArray): Duration {
  const larger = hours !== undefined || minutes !== undefined;
  if (larger && seconds !== undefined && toNumber(seconds) >= 60)
    return {
      problem: `${written} has ${seconds} seconds beside minutes; only 0 to 59 is possible there. Check the value.`,
    };
  if (hours !== undefined && minutes !== undefined && toNumber(minutes) >= 60)
    return {
      problem: `${written} has ${minutes} minutes beside hours; only 0 to 59 is possible there. Check the value.`,
    };
  return { seconds: toNumber(hours ?? '0') * 3600 + toNumber(minutes ?? '0') * 60 + toNumber(seconds ?? '0') };
}
