import * as fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import {
  KEYS,
  SMALL,
  changeBetween,
  commandOf,
  frameAfter,
  frameBefore,
  frameGap,
  greyOf,
  momentTimes,
  nextTick,
  playingSeconds,
  speedNear,
  ticksOf,
} from '../../../src/lib/recording';

describe('keys', () => {
  it('every command of the printed table is on some key, and every key does what its line says', () => {
    const presses: Record<string, { key: string; shift?: boolean }> = {
      Space: { key: ' ' },
      '←': { key: 'ArrowLeft' },
      '→': { key: 'ArrowRight' },
      '⇧ ←': { key: 'ArrowLeft', shift: true },
      '⇧ →': { key: 'ArrowRight', shift: true },
      '↑': { key: 'ArrowUp' },
      '↓': { key: 'ArrowDown' },
    };
    for (const { keys, commands } of KEYS) {
      const own = keys.filter((key) => key !== '…').map((key) => commandOf(presses[key] ?? { key }));
      expect(own[0]).toEqual(commands[0]);
      expect(own.at(-1)).toEqual(commands.at(-1));
    }
    expect(['1', '2', '3', '4', '5', '6'].map((key) => commandOf({ key }))).toEqual(
      [0.25, 0.5, 1, 2, 4, 8].map((speed) => ({ speed })),
    );
  });
  it("leaves the browser's own, and names of nothing", () => {
    for (const press of [
      { key: 's', ctrl: true },
      { key: 'r', meta: true },
      { key: 'ArrowLeft', alt: true },
      { key: 'Tab' },
      { key: 'constructor' },
      { key: '7' },
    ])
      expect(commandOf(press)).toBe(null);
  });
});

/** A recording whose frames begin at these places: a place shows the last frame begun by then. */
const recording = (frames: readonly number[]) => (to: number) =>
  Promise.resolve(frames.findLast((frame) => frame <= to) ?? frames[0] ?? 0);

describe('frames', () => {
  it.each([25, 29.97, 59.94])('on and back through every one of an even %d a second', async (rate) => {
    const frames = Array.from({ length: 60 }, (_, n) => n / rate);
    const seek = recording(frames);
    let at = 0;
    for (const frame of frames.slice(1))
      expect((at = await frameAfter(seek, at, { seconds: 1 / rate, even: true }, 60 / rate))).toBe(frame);
    expect(await frameAfter(seek, at, { seconds: 1 / rate, even: true }, 60 / rate)).toBe(at);
    for (const frame of frames.slice(0, -1).reverse()) expect((at = await frameBefore(seek, at))).toBe(frame);
    expect(await frameBefore(seek, 0)).toBe(0);
  });

  it('on and back through every one that comes unevenly', async () => {
    const gaps = fc.array(fc.integer({ min: 10, max: 150 }), { minLength: 3, maxLength: 40 });
    await fc.assert(
      fc.asyncProperty(gaps, async (drawn) => {
        const frames = [0];
        for (const gap of drawn) frames.push(((frames.at(-1) ?? 0) * 1000 + gap) / 1000);
        const seek = recording(frames);
        const duration = (frames.at(-1) ?? 0) + 0.04;
        let at = 0;
        for (const frame of frames.slice(1))
          expect((at = await frameAfter(seek, at, { seconds: 0.04, even: false }, duration))).toBe(frame);
        for (const frame of frames.slice(0, -1).reverse()) expect((at = await frameBefore(seek, at))).toBe(frame);
      }),
      { numRuns: 100 },
    );
  });

  it('know their length by those that were shown', () => {
    expect(frameGap([])).toEqual({ seconds: 1 / 25, even: false });
    const played = Array.from({ length: 12 }, (_, n) => n / 30).filter((_, n) => n !== 4 && n !== 8); // two left out
    expect(frameGap([...played, 9])).toEqual({ seconds: expect.closeTo(1 / 30, 9) as number, even: true });
    expect(frameGap([0, 0.03, 0.05, 0.11, 0.14, 0.2, 0.21, 0.3, 0.33, 0.4]).even).toBe(false);
  });
});

describe('slow near', () => {
  const expected = { after: 40, until: 70 };
  it('plays fast away from a boundary and at normal speed near it', () => {
    expect([10, 37.9, 38, 55, 72, 72.1].map((since) => speedNear(since, expected, 8))).toEqual([8, 8, 1, 1, 1, 8]);
    expect(speedNear(50, expected, 0.5)).toBe(0.5);
  });
  it('and at normal speed where nothing is known', () => {
    expect([speedNear(null, expected, 8), speedNear(5, null, 8)]).toEqual([1, 1]);
  });
});

/** A picture of one grey, with a bar in it. */
function picture(grey: number, bar: { x: number; y: number } | null, shift = 0): Uint8ClampedArray {
  const { width, height } = SMALL;
  const rgba = new Uint8ClampedArray(4 * width * height);
  for (let y = 0; y < height; y += 1)
    for (let x = 0; x < width; x += 1) {
      const texture = 20 * Math.sin((x + shift) / 5) * Math.cos(y / 4);
      const inBar = bar !== null && Math.abs(x - bar.x) < 3 && y > bar.y;
      const at = 4 * (y * width + x);
      rgba[at] = rgba[at + 1] = rgba[at + 2] = inBar ? 240 : grey + texture;
      rgba[at + 3] = 255;
    }
  return rgba;
}
const change = (a: Uint8ClampedArray, b: Uint8ClampedArray) => changeBetween(greyOf(a), greyOf(b));

describe('a change of the picture', () => {
  it('is none for the same picture, a brighter one, or one that moved', () => {
    const still = picture(100, null);
    expect(change(still, still)).toBe(0);
    expect(change(still, picture(130, null))).toBe(0);
    expect(change(still, picture(100, null, 3))).toBe(0);
  });
  it('is large where something long comes in, in whichever order', () => {
    const [without, within] = [picture(100, null), picture(100, { x: 30, y: 8 })];
    expect(change(without, within)).toBeGreaterThan(50);
    expect(change(within, without)).toBe(change(without, within));
  });
});

describe('ticks', () => {
  it('stand at the sharpest changes, in the middle between two pictures', () => {
    const changes = Array.from({ length: 119 }, (_, at) => (at % 7) + (at === 40 || at === 90 ? 100 : 0));
    expect(ticksOf(changes)).toEqual(expect.arrayContaining([20.25, 45.25]));
  });
  it('are at most one for seven seconds, a second apart, and none where nothing changes', () => {
    fc.assert(
      fc.property(fc.array(fc.integer({ min: 0, max: 2000 }), { maxLength: 400 }), (changes) => {
        const ticks = ticksOf(changes);
        expect(ticks.length).toBeLessThanOrEqual(((changes.length + 1) * 0.5) / 7);
        expect(ticks.every((tick, at) => at === 0 || tick - (ticks[at - 1] ?? 0) >= 1)).toBe(true);
      }),
      { numRuns: 200 },
    );
    expect(ticksOf(Array.from({ length: 100 }, () => 7))).toEqual([]);
    expect(ticksOf([])).toEqual([]);
  });
  it('are jumped to from where one stands', () => {
    const ticks = [3, 8, 20];
    expect([nextTick(ticks, 0, 1), nextTick(ticks, 3, 1), nextTick(ticks, 20, 1)]).toEqual([3, 8, null]);
    expect([nextTick(ticks, 20, -1), nextTick(ticks, 8.5, -1), nextTick(ticks, 2, -1)]).toEqual([8, 8, null]);
    // Stepped from the tick to the frame of its change: the next is another change.
    expect([nextTick(ticks, 2.8, 1), nextTick(ticks, 8.2, -1)]).toEqual([8, 3]);
  });
});

describe('moments', () => {
  it('begin and end with the step, whatever was put in their place', () => {
    const stretches = [
      { start: 10, end: 20 },
      { start: 30, end: 34 },
    ];
    expect(momentTimes(stretches, { m1: 12, start: 3 })).toEqual({ m1: 12, start: 10, end: 34 });
    expect(momentTimes([], { m1: 12 })).toEqual({ m1: 12 });
  });
});

describe('how long playing takes', () => {
  it('is reckoned: seven minutes at four times are a minute and three quarters', () => {
    expect(playingSeconds(420, 4)).toBe(105);
    expect(playingSeconds(420, 0.25)).toBe(1680);
  });

  it('is at most two and a half minutes with twelve boundaries played at normal speed, each known to a second', () => {
    // From two seconds before its earliest to two after its latest usual place: five seconds each, a minute in all.
    const expected = Array.from({ length: 12 }, () => ({ after: 30, until: 31 }));
    expect(playingSeconds(420, 4, expected)).toBe(60 + 360 / 4);
    expect(playingSeconds(30, 4, expected)).toBe(30);
    expect(playingSeconds(420, 1, expected)).toBe(420);
  });
});
