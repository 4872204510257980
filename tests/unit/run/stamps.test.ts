import { mkdtempSync, rmSync, writeFileSync } from 'node:fs';
import { join, relative } from 'node:path';
import { tmpdir } from 'node:os';
import { afterEach, beforeEach, describe, expect, it } from 'vitest';
import { hashOf, projectFolder, unlessStamped } from '../../../src/run/stamps.js';

let folder = '';
let inProject = '';
beforeEach(() => {
  folder = mkdtempSync(join(tmpdir(), 'next-twenty-stamps-'));
  inProject = relative(projectFolder, folder);
});
afterEach(() => rmSync(folder, { recursive: true }));

describe('work that is done once', () => {
  it('is done again only for another stamp, and after it broke off', async () => {
    const done: string[] = [];
    const stamp = join(inProject, 'stamp');
    const work = async () => void done.push('done');
    await unlessStamped(stamp, 'a', work);
    await unlessStamped(stamp, 'a', work);
    expect(done).toHaveLength(1);
    const broken = unlessStamped(stamp, 'b', async () => {
      throw new Error('broke off');
    });
    await expect(broken).rejects.toThrow('broke off');
    await unlessStamped(stamp, 'a', work);
    expect(done).toHaveLength(2);
  });
});

describe('the hash of sources', () => {
  it('changes with a name or a content, not with a time or what does not exist', () => {
    const write = (name: string, content: string) => writeFileSync(join(folder, name), content);
    write('a', '1');
    const first = hashOf([inProject]);
    write('a', '1');
    expect(hashOf([inProject, join(inProject, 'nowhere')])).toBe(first);
    write('a', '2');
    const second = hashOf([inProject]);
    write('b', '');
    expect(new Set([first, second, hashOf([inProject])]).size).toBe(3);
  });
});
