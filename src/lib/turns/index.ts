/**
 * Long work that can hand over between its parts: a generator that yields the share done, 0..1, and returns the answer.
 * Whoever asks decides: at once (a command, a test), or in slices (a server that answers others meanwhile).
 */
export type Work<Answer> = Generator<number, Answer>;

/** Does the work without a pause. */
export function atOnce<Answer>(work: Work<Answer>): Answer {
  for (;;) {
    const { done, value } = work.next();
    if (done) return value;
  }
}

export type Slices = {
  /** Lets others have their turn (`setImmediate`, say). */
  pause: () => Promise<unknown>;
  /** Hears the share done, 0..1. */
  progress?: (share: number) => void;
  /** Asked after each pause. */
  cancelled?: () => boolean;
};

/** Raised where the caller no longer wants the answer. */
export class Cancelled extends Error {
  override readonly name = 'Cancelled';
}

/**
 * Does the work with a pause between its parts.
 *
 * @throws Cancelled once `cancelled` answers true
 */
export async function inSlices<Answer>(work: Work<Answer>, { pause, progress, cancelled }: Slices): Promise<Answer> {
  for (;;) {
    const { done, value } = work.next();
    if (done) return value;
    progress?.(value);
    await pause();
    if (cancelled?.()) throw new Cancelled('The work was cancelled.');
  }
}

/** Part of a longer work: its own share, 0..1, is put between `from` and `to` of the whole. */
export function* scaled<Answer>(work: Work<Answer>, from: number, to: number): Work<Answer> {
  for (;;) {
    const { done, value } = work.next();
    if (done) return value;
    yield from + value * (to - from);
  }
}

/** Small parts cost nothing: a pause is some microseconds, and this many rows of a file take two milliseconds or so. */
const A_SLICE = 200;

/** `items.map(make)`, handing over after every 200. */
export function* mapped<Item, Made>(
  items: readonly Item[],
  make: (item: Item, index: number) => Made,
  aSlice = A_SLICE,
): Work<Made[]> {
  const made: Made[] = [];
  for (const [index, item] of items.entries()) {
    if (index > 0 && index % aSlice === 0) yield index / items.length;
    made.push(make(item, index));
  }
  return made;
}

/**
 * Work in steps so small that a pause at each would cost more than the step: a generator that yields what each weighs, in
 * rows of a file, and returns the answer. Whoever writes a step says its weight; how many make a slice is decided below.
 */
export type Steps<Answer> = Generator<number, Answer>;

/** Puts small steps together: hands over whenever those done since the last pause weigh a slice. */
export function* bundled<Answer>(
  steps: Steps<Answer>,
  aSlice = A_SLICE,
  /** What all of them are expected to weigh, as far as it is known by now; 0 where it is not. */
  expected: () => number = () => 0,
): Work<Answer> {
  let all = 0;
  for (let weight = 0; ;) {
    const { done, value } = steps.next();
    if (done) return value;
    weight += value;
    all += value;
    if (weight < aSlice) continue;
    weight = 0;
    const whole = expected();
    // Expected is not known: what is not done yet is never said to be.
    yield whole > 0 ? Math.min(0.99, all / whole) : 0;
  }
}

/** `[...items].sort(compare)` in steps: equal items keep their order. */
export function* sorted<Item>(items: readonly Item[], compare: (a: Item, b: Item) => number): Steps<Item[]> {
  let runs: Item[][] = [];
  for (let from = 0; from < items.length; from += RUN) {
    runs.push(items.slice(from, from + RUN).sort(compare));
    yield A_SLICE;
  }
  while (runs.length > 1) {
    const merged: Item[][] = [];
    for (let at = 0; at < runs.length; at += 2) merged.push(yield* merge(runs[at] ?? [], runs[at + 1] ?? [], compare));
    runs = merged;
  }
  return runs[0] ?? [];
}

const RUN = 2_000;

function* merge<Item>(
  first: readonly Item[],
  second: readonly Item[],
  compare: (a: Item, b: Item) => number,
): Steps<Item[]> {
  const merged: Item[] = [];
  for (let left = 0, right = 0; left < first.length || right < second.length;) {
    const [a, b] = [first[left], second[right]];
    const takesFirst = a !== undefined && (b === undefined || compare(a, b) <= 0);
    merged.push((takesFirst ? a : b) as Item);
    if (takesFirst) left += 1;
    else right += 1;
    if (merged.length % RUN === 0) yield A_SLICE;
  }
  return merged;
}

/** Items a loop of small steps does between two yields: passed through several generators a yield costs as much as a row. */
const A_PART = 40;

/** The items in parts of some dozens, in order: `for (const part of parted(rows)) { yield part.length * weight; for (const row of part) … }`. */
export function parted<Item>(items: readonly Item[], aPart = A_PART): (readonly Item[])[] {
  const parts: (readonly Item[])[] = [];
  for (let from = 0; from < items.length; from += aPart) parts.push(items.slice(from, from + aPart));
  return parts;
}
