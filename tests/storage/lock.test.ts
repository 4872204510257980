import { readdir, readFile, writeFile } from 'node:fs/promises';
import { hostname } from 'node:os';
import { join } from 'node:path';
import { describe, expect, it } from 'vitest';
import { openStore } from '../../src/lib/server/storage';
import { livingOwner } from '../../src/lib/server/storage/disk/owner.js';
import { bundleChildProgram, startChild } from './child';
import { aCase, now } from '../made-up/stored';
import { freshFolder, openIn } from './stores';

bundleChildProgram();

const lockIn = (folder: string) => join(folder, 'owner.lock');
const lockFiles = async (folder: string) => (await readdir(folder)).filter((name) => name.startsWith('owner.lock'));

describe('one owner a folder', () => {
  it('says how to go on where no start time tells a running server from another program with its number', async () => {
    const folder = await freshFolder();
    // The process of this test's parent runs, and says nothing of when it started: as on macOS and Windows.
    const lock = { pid: process.ppid, host: hostname(), started: null, token: 'before-a-crash', since: now };
    await writeFile(lockIn(folder), JSON.stringify(lock));
    await expect(openStore(folder, now)).rejects.toMatchObject({
      code: 'locked',
      message: expect.stringMatching(/is another program .*delete .*owner\.lock and start again/),
    });
  });

  it('tells a second server who holds it, and lets it in once the first has closed', async () => {
    const folder = await freshFolder();
    const first = await openStore(folder, now);
    const refusal = { code: 'locked', message: expect.stringContaining(`process ${process.pid} on ${hostname()}`) };
    await expect(openStore(folder, now)).rejects.toMatchObject(refusal);
    const child = startChild('hold', folder);
    expect(await child.firstLine).toContain(`in use by process ${process.pid}`);
    await child.ended;
    await first.recordCase(aCase('A'));
    await first.close();
    expect(await lockFiles(folder)).toEqual([]);
    expect(await (await openIn(folder)).cases()).toHaveLength(1);
  });

  it('takes over from one that was killed, at once', async () => {
    const folder = await freshFolder();
    const child = startChild('hold', folder);
    expect(await child.firstLine).toBe('held');
    expect(livingOwner(folder)?.pid).toBe(child.process.pid);
    await expect(openStore(folder, now)).rejects.toMatchObject({ code: 'locked' });
    child.process.kill('SIGKILL');
    await child.ended;
    expect(livingOwner(folder)).toBeNull();
    await openIn(folder);
    expect(await lockFiles(folder)).toEqual(['owner.lock']);
  });

  it('has exactly one winner when several start on the lock of a dead one', async () => {
    const folder = await freshFolder();
    for (let round = 0; round < 3; round += 1) {
      const dead = { pid: 999_999_999, host: hostname(), started: '1', token: `dead-${round}`, since: now };
      await writeFile(lockIn(folder), JSON.stringify(dead));
      const children = Array.from({ length: 5 }, () => startChild('hold', folder));
      const said = await Promise.all(children.map((child) => child.firstLine));
      for (const child of children) child.process.kill('SIGKILL');
      await Promise.all(children.map((child) => child.ended));
      expect(said.filter((line) => line === 'held')).toHaveLength(1);
      expect(said.filter((line) => line.startsWith('locked '))).toHaveLength(4);
      expect(await lockFiles(folder)).toEqual(['owner.lock']);
    }
  });

  it('tells a process number given again from the owner it once was', async () => {
    const folder = await freshFolder();
    const reused = { pid: process.ppid, host: hostname(), started: 'another moment', token: 'old', since: now };
    await writeFile(lockIn(folder), JSON.stringify(reused));
    // Where the platform does not say when a process began, a living number has to count as the owner.
    if (process.platform === 'linux') await openIn(folder);
    else await expect(openStore(folder, now)).rejects.toMatchObject({ code: 'locked' });
    expect(livingOwner(folder)).not.toBeNull();
  });

  it('never takes the lock of another machine, and says what a person can do', async () => {
    const folder = await freshFolder();
    await writeFile(
      lockIn(folder),
      JSON.stringify({ pid: 1, host: 'elsewhere', started: '1', token: 'far', since: now }),
    );
    const refusal = { code: 'locked', message: expect.stringContaining('elsewhere') };
    await expect(openStore(folder, now)).rejects.toMatchObject(refusal);
    await writeFile(lockIn(folder), '');
    await expect(openStore(folder, now)).rejects.toMatchObject({
      code: 'locked',
      message: expect.stringContaining(lockIn(folder)),
    });
  });

  it('writes nothing once the lock has gone to somebody else, and leaves it theirs', async () => {
    const folder = await freshFolder();
    const store = await openStore(folder, now);
    await store.recordCase(aCase('A'));
    const before = await readFile(join(folder, 'cases', '1.json'), 'utf8');
    const theirs = JSON.stringify({ pid: process.pid, host: hostname(), started: null, token: 'theirs', since: now });
    await writeFile(lockIn(folder), theirs);
    await expect(store.recordCase(aCase('B'))).rejects.toMatchObject({ code: 'locked' });
    expect(await readFile(join(folder, 'cases', '1.json'), 'utf8')).toBe(before);
    await store.close();
    expect(await readFile(lockIn(folder), 'utf8')).toBe(theirs);
  });
});
