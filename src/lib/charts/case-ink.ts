/** One part of an operation as it is to be drawn; the caller has put the parts in order. */
export type InkPart = {
  kind: 'step' | 'waiting' | 'protected';
  /** One or two letters, the step's own. Empty for waiting and protected parts. */
  initial: string;
  seconds: number;
  /** Clock reading, seconds; `null` where only the length is known. */
  start: number | null;
};

export type InkMark = { kind: InkPart['kind']; x: number; width: number; initial: string };

/** Rows of hatching and letters in the units of the view box; `letters` holds those that found room. */
export type CaseInk =
  | {
      kind: 'ink';
      width: number;
      height: number;
      line: number;
      marks: readonly InkMark[];
      letters: readonly { x: number; text: string }[];
      hatch: readonly { x1: number; x2: number; y1: number; y2: number }[];
    }
  | { kind: 'cannot-draw'; because: string };

const HEIGHT = 26;
const LINE = 20;
const HATCH_GAP = 4;
/** Room a letter of 12 px takes; a letter without room is left out rather than set over its neighbour. */
const LETTER = 8;

/**
 * Where the parts of one operation stand on a line, in proportion to each other. Each operation fills the same width:
 * the drawing tells how an operation was made up, and two of them cannot be compared for length.
 *
 * @param parts in order of the operation; placed on their clock where all readings are known, else one after the other.
 * @returns positions in view-box units, or why nothing can be drawn. Never throws.
 */
export function caseInk(parts: readonly InkPart[], width = 320): CaseInk {
  const usable = parts.filter(({ seconds }) => Number.isFinite(seconds) && seconds > 0);
  if (usable.length === 0) return { kind: 'cannot-draw', because: 'no times' };

  const placed = onTheClock(usable) ?? oneAfterTheOther(usable);
  const from = Math.min(...placed.map(({ at }) => at));
  const until = Math.max(...placed.map(({ at, part }) => at + part.seconds));
  const scale = (width - 2) / (until - from);
  const marks = placed.map(({ part, at }) => ({
    kind: part.kind,
    x: 1 + (at - from) * scale,
    width: Math.max(1, part.seconds * scale),
    initial: part.initial,
  }));
  return {
    kind: 'ink',
    width,
    height: HEIGHT,
    line: LINE,
    marks,
    letters: lettersOf(marks, width),
    hatch: marks.filter(({ kind }) => kind === 'waiting').flatMap(hatchOf),
  };
}

type Placed = { part: InkPart; at: number };

function onTheClock(parts: readonly InkPart[]): Placed[] | null {
  const placed: Placed[] = [];
  for (const part of parts) {
    if (part.start === null || !Number.isFinite(part.start)) return null;
    placed.push({ part, at: part.start });
  }
  return placed;
}

function oneAfterTheOther(parts: readonly InkPart[]): Placed[] {
  let at = 0;
  return parts.map((part) => {
    const placed = { part, at };
    at += part.seconds;
    return placed;
  });
}

/** Letters from left to right, each only where it does not touch the one before. */
function lettersOf(marks: readonly InkMark[], width: number): { x: number; text: string }[] {
  const letters: { x: number; text: string }[] = [];
  let free = 0;
  for (const { kind, x, width: wide, initial } of [...marks].sort((a, b) => a.x - b.x)) {
    const room = initial.length * LETTER;
    const left = x + wide / 2 - room / 2;
    if (kind !== 'step' || initial === '' || left < free || left + room > width) continue;
    letters.push({ x: left + room / 2, text: initial });
    free = left + room + 1;
  }
  return letters;
}

function hatchOf({ x, width }: InkMark): { x1: number; x2: number; y1: number; y2: number }[] {
  const strokes = Math.max(1, Math.floor(width / HATCH_GAP));
  return Array.from({ length: strokes }, (_, index) => {
    const middle = x + (index + 0.5) * (width / strokes);
    return { x1: middle - 1.5, x2: middle + 1.5, y1: LINE + 4, y2: LINE - 4 };
  });
}
