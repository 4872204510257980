import { readFile, rm, stat, writeFile } from 'node:fs/promises';
import { join } from 'node:path';
import { isHttpError, type RequestEvent } from '@sveltejs/kit';
import { describe, expect, it, vi } from 'vitest';
import { dropFaults, faultOf, faultsWritten, latestFaults, noteFault, noteFaultsIn } from '../../src/lib/server/faults';
import { toldFault } from '../../src/lib/server/told-fault';
import { sayingDamage } from '../../src/lib/server/say-damage';
import type { Store } from '../../src/lib/server/storage';
import { openMemoryStore } from '../../src/lib/server/storage';
import { handleError } from '../../src/hooks.server';
import { asked, filled, idOf, modules, paramsOf } from './rooms';
import { freshFolder } from './stores';

const now = '2026-11-25T10:00:00.000Z';

/** An error as one of ours might be: its message quotes what was typed, its path the account of a person. */
function personal(): Error {
  const why = new TypeError('Jane Doe (4711) is no number\n    and neither is case K-17');
  why.stack = `TypeError: Jane Doe (4711) is no number\n    and neither is case K-17
    at resultFor (file:///home/jane.doe/next-twenty/build/server/chunks/result.js:12:34)
    at async load (/home/jane.doe/next-twenty/src/routes/cases/[id]/+page.server.ts:5:6)
    at process.processTicksAndRejections (node:internal/process/task_queues:95:5)
    at /home/jane.doe/other.js:1:2`;
  return why;
}

describe('the log of faults', () => {
  it('keeps what the program did, and nothing of what it was done with', async () => {
    const folder = await freshFolder();
    noteFaultsIn(folder);
    const id = noteFault(faultOf(personal(), 'GET /cases/[id]', now));
    await faultsWritten();
    const text = await readFile(join(folder, 'faults.log'), 'utf8');
    expect(JSON.parse(text)).toEqual({
      at: now,
      id,
      where: 'GET /cases/[id]',
      what: 'TypeError',
      frames: [
        'resultFor build/server/chunks/result.js:12:34',
        'load src/routes/cases/[id]/+page.server.ts:5:6',
        'process.processTicksAndRejections node:internal/process/task_queues:95:5',
        'elsewhere:1:2',
      ],
    });
    expect(text).not.toMatch(/jane|doe|4711|K-17/i);
    expect((await stat(join(folder, 'faults.log'))).mode & 0o077).toBe(0);
    for (const odd of [null, undefined, 'Jane Doe', { name: 'Jane Doe', code: 'K-17' }])
      expect(JSON.stringify(faultOf(odd, '', now))).not.toMatch(/Jane|K-17/);
  });

  it('takes from a browser only what has that form', () => {
    const told = {
      id: '0123abcd',
      where: '/cases/[id]',
      what: 'TypeError',
      stack: '    at f (http://127.0.0.1:4620/_app/immutable/x.js:1:2)',
    };
    expect(toldFault(told, now)).toEqual({
      at: now,
      id: '0123abcd',
      where: '/cases/[id] (browser)',
      what: 'TypeError',
      frames: ['f _app/immutable/x.js:1:2'],
    });
    expect(toldFault({ ...told, id: 'Jane' }, now)).toBeNull();
    const odd = toldFault(
      { ...told, where: '/cases/Jane Doe', what: 'Jane Doe', stack: 'Jane Doe\n at Jane Doe <script>' },
      now,
    );
    expect(JSON.stringify(odd)).not.toContain('Jane');
  });

  it('turns over before it fills the disk, and a folder that is gone hurts nobody', async () => {
    const folder = await freshFolder();
    noteFaultsIn(folder);
    await writeFile(join(folder, 'faults.log'), `${'x'.repeat(256 * 1024 - 10)}\n`);
    const id = noteFault(faultOf(new Error('x'), '/', now));
    await faultsWritten();
    expect((await stat(join(folder, 'faults.log.1'))).size).toBe(256 * 1024 - 9);
    expect((await latestFaults(5)).map((fault) => fault.id)).toEqual([id]); // the line of x is passed over
    await dropFaults();
    expect(await latestFaults(5)).toEqual([]);
    await rm(folder, { recursive: true });
    noteFault(faultOf(new Error('x'), '/', now));
    await expect(faultsWritten()).resolves.toBeUndefined();
  });
});

describe('a page that fails', () => {
  it('gives a number that stands in the log', async () => {
    const complaint = vi.spyOn(console, 'error').mockImplementation(() => {});
    noteFaultsIn(await freshFolder());
    const event = {
      request: new Request('http://127.0.0.1/cases/K-17'),
      url: new URL('http://127.0.0.1/cases/K-17'),
      route: { id: '/cases/[id]' },
    };
    const said = await handleError({
      error: personal(),
      event: event as unknown as RequestEvent,
      status: 500,
      message: 'Internal Error',
    });
    await faultsWritten();
    const [fault] = await latestFaults(1);
    expect(said).toEqual({ message: expect.stringContaining('went wrong'), errorId: fault?.id });
    expect(fault).toMatchObject({ where: 'GET /cases/[id]', what: 'TypeError' });
    complaint.mockRestore();
  });

  it('leaves the others open: every page answers that does not ask for what failed, and so does the frame of all', async () => {
    const here = await filled(await openMemoryStore());
    const broken = new Proxy(here.store, {
      get(target, verb) {
        if (verb === 'results') return () => Promise.reject(new TypeError('a fault of ours'));
        const value: unknown = Reflect.get(target, verb);
        return typeof value === 'function' ? value.bind(target) : value;
      },
    }) as Store;
    const failed: string[] = [];
    for (const file of Object.keys(modules).filter((each) => !each.includes('['))) {
      const { load } = (await modules[file]?.()) ?? {};
      if (!load) continue;
      try {
        for (const params of paramsOf(idOf(file), here))
          await asked(sayingDamage(broken), load, idOf(file), params, '');
      } catch (why) {
        expect(isHttpError(why)).toBe(false);
        failed.push(file.replace(/.*routes/, ''));
      }
    }
    expect(failed).not.toContain('/+layout.server.ts');
    expect(failed).not.toContain('/settings/+page.server.ts');
    expect(failed).toContain('/after-twenty/+page.server.ts');
    expect(failed.length).toBeLessThan(12);
  }, 120_000);
});
