import { readdir } from 'node:fs/promises';
import { join } from 'node:path';
import { setTimeout as wait } from 'node:timers/promises';
import { describe, expect, it } from 'vitest';
import { openStore } from '../../src/lib/server/storage';
import { bundleChildProgram, startChild } from './child';
import { now } from '../made-up/stored';
import { freshFolder } from './stores';

bundleChildProgram();

/** Milliseconds from the first acknowledged save to the kill: spread over many saves, each of a few milliseconds. */
const moments = [0, 3, 7, 11, 16, 22, 29, 37, 46, 60, 85, 130];

describe('a server killed while it writes', () => {
  it('has every change it acknowledged, whole, and no change by half', async () => {
    const folder = await freshFolder();
    let acknowledged = 0;
    for (const moment of moments) {
      const child = startChild('write', folder, String(acknowledged + 2)); // one number may be stored and never have been said
      await child.firstLine;
      await wait(moment);
      child.process.kill('SIGKILL');
      await child.ended;
      expect(child.lines.every((line) => line.startsWith('acknowledged '))).toBe(true);
      acknowledged = Number(child.lines.at(-1)?.split(' ')[1]);

      const store = await openStore(folder, now);
      const [cases, lists, imports] = [await store.cases(), await store.lists(), await store.imports()];
      await store.close();
      const codes = new Set(cases.map(({ code }) => code));
      const said = child.lines.map((line) => line.split(' ')[1]);
      expect(said.filter((number) => !codes.has(`one-${number}`) || !codes.has(`many-${number}`))).toEqual([]);
      const many = cases.filter(({ code }) => code.startsWith('many-'));
      expect([lists.length, imports.length]).toEqual([many.length, many.length]);
      expect(many.map(({ listId }) => listId).sort()).toEqual(lists.map(({ id }) => id).sort());
      expect((await readdir(folder)).filter((name) => /journal|unreadable|making/.test(name))).toEqual([]);
      expect(await readdir(join(folder, 'cases'))).toEqual(['1.json']);
    }
    expect(acknowledged).toBeGreaterThan(moments.length);
  });
});
