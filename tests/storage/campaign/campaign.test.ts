import { describe, expect, it } from 'vitest';
import { powerCuts } from './cuts';
import { damagedFiles } from './damage';
import { callsOf, failingAt } from './failing-calls';
import { tabsAtOnce } from './tabs';
import { STEPS } from './workload';

/** Part of what `npm run bench -- faults` does whole: the same code, fewer moments. Kills are in `kill.test.ts`. */
const every = (nth: number) =>
  function* (lines: number) {
    for (let line = nth; line <= lines; line += nth) yield line;
  };

describe('a short campaign of faults', () => {
  it('power cuts lose nothing that was acknowledged, in any order in which the disk may have written', async () => {
    const { acknowledged, found, lost, states } = await powerCuts(STEPS, every(5));
    expect(lost).toEqual([]);
    expect(found).toBe(acknowledged);
    expect(states).toBeGreaterThan(40);
  }, 120_000);

  it('would find a lost change: names that are never flushed lose some', async () => {
    const { FakeDisk } = await import('./fake-disk');
    const { after } = FakeDisk.prototype;
    FakeDisk.prototype.after = function (line) {
      this.log.forEach((each, at) => {
        if (each.kind === 'synced-folder') this.log[at] = { ...each, folder: 'another' };
      });
      return after.call(this, line);
    };
    try {
      const { lost } = await powerCuts(STEPS.slice(0, 2), (lines) => [lines]);
      expect(lost.length).toBeGreaterThan(0);
    } finally {
      FakeDisk.prototype.after = after;
    }
  }, 120_000);

  it.each([
    ['EIO', false],
    ['ENOSPC', true],
  ] as const)(
    'a disk that says %s leaves each change whole or without a trace',
    async (code, lasting) => {
      const calls = await callsOf(STEPS);
      expect(calls).toBeGreaterThan(60);
      for (let call = 1; call <= calls; call += 7)
        expect((await failingAt(STEPS, call, { code, lasting })).lost, `call ${call}`).toEqual([]);
    },
    180_000,
  );

  it('tabs that store at once all have what they were told', async () => {
    expect((await tabsAtOnce(20)).lost).toEqual([]);
  }, 60_000);

  it('a damaged file is named, leaves the others, and comes back where it has a backup', async () => {
    expect((await damagedFiles()).lost).toEqual([]);
  }, 120_000);
});
