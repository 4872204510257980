import { changeBetween, CHANGE_EVERY, greyOf, SMALL, ticksOf } from '../../src/lib/recording';
import { randomStream } from '../../src/lib/statistics';

const USAGE = 'npm run bench -- picture-changes [--runs 8] [--seed 101] [--seconds 420] [--json]';

type Io = { out: (text: string) => void; err: (text: string) => void };

/** Of the changes that were made, so many are within half a second of a tick, at no more than two ticks a change. */
export const RECALL_BAR = 0.9;
export const TICKS_A_CHANGE = 2;
const NEAR = 0.5;
/** A change each 10.5 seconds: forty in seven minutes. */
const PER_CHANGE = 10.5;

export type Found = { changes: number; ticks: number; recall: number; evenly: number };

/**
 * A made operation, two pictures a second, with changes at known places: a bar comes or goes, a third of them thin, and it
 * moves while it is there. The eye drifts, the lamp flickers, the picture is noisy, jerks six times and is zoomed three
 * times; none of these is a change.
 */
export function* pictures(seed: number, seconds: number): Generator<{ rgba: Uint8ClampedArray; changed: boolean }> {
  const chance = randomStream(seed, 1);
  const between = (low: number, high: number) => low + (high - low) * chance.uniform();
  const count = Math.floor(seconds / CHANGE_EVERY);
  const places = (many: number) =>
    Array.from({ length: many }, (_, n) => Math.floor(((n + between(0.15, 0.85)) * count) / many));
  const changes = new Set(places(Math.round(seconds / PER_CHANGE)));
  const jerks = new Set(places(6));
  const zooms = new Set(places(3));
  let [x, y, zoom] = [0, 0, 1];
  let bar = null as Scene['bar'];
  for (let n = 0; n < count; n += 1) {
    const changed = n > 0 && changes.has(n);
    if (changed)
      bar = bar
        ? null
        : { angle: between(0, 6.28), width: chance.uniform() < 0.34 ? 1.2 : between(2, 4), reach: between(2, 12) };
    else if (bar)
      bar = { ...bar, angle: bar.angle + 0.06 * chance.normal(), reach: Math.max(0, bar.reach + chance.normal()) };
    [x, y] = [0.98 * x + 0.25 * chance.normal(), 0.98 * y + 0.25 * chance.normal()];
    if (jerks.has(n)) [x, y] = [x + between(-4, 4), y + between(-3, 3)];
    if (zooms.has(n)) zoom = between(0.9, 1.15);
    const lamp = 1 + 0.08 * Math.sin(n / 3) + 0.03 * chance.normal();
    yield { rgba: drawn({ x, y, zoom, lamp, bar }, chance), changed };
  }
}

type Scene = {
  x: number;
  y: number;
  zoom: number;
  lamp: number;
  bar: { angle: number; width: number; reach: number } | null;
};

function drawn({ x, y, zoom, lamp, bar }: Scene, chance: ReturnType<typeof randomStream>): Uint8ClampedArray {
  const { width, height } = SMALL;
  const rgba = new Uint8ClampedArray(4 * width * height);
  for (let row = 0; row < height; row += 1)
    for (let column = 0; column < width; column += 1) {
      const [dx, dy] = [(column - width / 2 - x) / zoom, (row - height / 2 - y) / zoom];
      const from = Math.hypot(dx, dy);
      const texture = 12 * Math.sin(5 * Math.atan2(dy, dx)) * Math.min(1, from / 9);
      let grey = from < 8 ? 55 : from < 15 ? 115 + texture : 165 + 8 * Math.sin(dx / 4);
      if (bar) {
        const [along, across] = [
          dx * Math.cos(bar.angle) + dy * Math.sin(bar.angle),
          -dx * Math.sin(bar.angle) + dy * Math.cos(bar.angle),
        ];
        if (along > bar.reach && Math.abs(across) < bar.width) grey = 225;
      }
      const at = 4 * (row * width + column);
      rgba.fill(grey * lamp + 5 * chance.normal(), at, at + 3);
      rgba[at + 3] = 255;
    }
  return rgba;
}

/** Ticks of one made operation against its known changes, and evenly spaced ones of the same number. */
export function foundIn(seed: number, seconds: number): Found {
  const changes: number[] = [];
  const known: number[] = [];
  let before: ReturnType<typeof greyOf> | null = null;
  let n = 0;
  for (const { rgba, changed } of pictures(seed, seconds)) {
    const grey = greyOf(rgba);
    if (before) changes.push(changeBetween(before, grey));
    // It came between this picture and the one before.
    if (changed) known.push((n - 0.5) * CHANGE_EVERY);
    before = grey;
    n += 1;
  }
  const ticks = ticksOf(changes);
  const evenly = ticks.map((_, at) => ((at + 0.5) * seconds) / ticks.length);
  const recall = (places: readonly number[]) =>
    known.filter((at) => places.some((tick) => Math.abs(tick - at) <= NEAR)).length / known.length;
  return { changes: known.length, ticks: ticks.length, recall: recall(ticks), evenly: recall(evenly) };
}

/** @returns 0 where recall and number of ticks keep their bars over all runs together; else 1; 2 for a wrong call */
export function run(args: readonly string[], io: Io): number {
  const option = (name: string, otherwise: number) => {
    const at = args.indexOf(`--${name}`);
    return at === -1 ? otherwise : Number(args[at + 1]);
  };
  const [runs, seed, seconds] = [option('runs', 8), option('seed', 101), option('seconds', 420)];
  if (![runs, seed, seconds].every((each) => Number.isInteger(each) && each > 0)) {
    io.err(`${USAGE}\n`);
    return 2;
  }
  const found = Array.from({ length: runs }, (_, n) => foundIn(seed + n, seconds));
  const mean = (of: (one: Found) => number) => found.reduce((sum, one) => sum + of(one), 0) / runs;
  const all = {
    recall: mean(({ recall }) => recall),
    worst: Math.min(...found.map(({ recall }) => recall)),
    evenly: mean(({ evenly }) => evenly),
    ticksAChange: mean(({ ticks, changes }) => ticks / changes),
  };
  const kept = all.recall >= RECALL_BAR && all.ticksAChange <= TICKS_A_CHANGE;
  if (args.includes('--json')) io.out(`${JSON.stringify({ runs, seed, seconds, ...all, kept })}\n`);
  else
    io.out(
      `${runs} made operations of ${seconds} s: ${all.recall.toFixed(2)} of the changes within ${NEAR} s of a tick (worst ${all.worst.toFixed(2)}), at ${all.ticksAChange.toFixed(2)} ticks a change; evenly spaced ticks: ${all.evenly.toFixed(2)}. ${kept ? 'Kept.' : 'NOT kept.'}\n`,
    );
  return kept ? 0 : 1;
}
