import { parseDuration, type Duration } from '../../intake';

/** What three or four figures, or figures with a point, mean where nobody could type a colon. */
export type FiguresAre = 'clock' | 'seconds';

const FIGURES = /^\d{3,4}$/;
const POINT = /^(\d{1,2})[.,](\d{1,2})$/;

/** Can this be read in two ways: 123 as 1 min 23 s or 123 s, 1.23 as 1 min 23 s or 1.23 s? */
export const readTwoWays = (text: string): boolean => FIGURES.test(text.trim()) || POINT.test(text.trim());

/**
 * A time as typed with the figures of a phone. As a clock, 123 and 1.23 are 1 min 23 s; two figures are seconds either
 * way, and anything with a colon or a unit means what it says.
 */
export function readFigures(text: string, figures: FiguresAre): Duration {
  const typed = text.trim();
  if (figures === 'seconds' || !readTwoWays(typed)) return parseDuration(typed);
  const point = POINT.exec(typed);
  if (point && point[2]?.length === 1)
    return { problem: `${typed} leaves a figure out: write ${point[1]}.${point[2]}0 or ${point[1]}.0${point[2]}.` };
  const [minutes, seconds] = point ? [point[1], point[2]] : [typed.slice(0, -2), typed.slice(-2)];
  return Number(seconds) > 59
    ? { problem: `${typed} cannot be minutes and seconds: ${seconds} is not between 00 and 59.` }
    : parseDuration(`${minutes}:${seconds}`);
}
