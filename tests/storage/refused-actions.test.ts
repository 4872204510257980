import { type ActionFailure, isActionFailure, isRedirect, type RequestEvent } from '@sveltejs/kit';
import { expect, it } from 'vitest';
import { openMemoryStore, StorageError, type Store } from '../../src/lib/server/storage';
import { filled, type Filled } from './rooms';

type Action = (event: RequestEvent) => unknown;
const modules = import.meta.glob<{ actions?: Record<string, Action> }>('../../src/routes/**/+page.server.ts');

const FULL = 'The disk is full (ENOSPC). Nothing was changed in the folder; what was saved before is still there.';
const CHANGES = /^(record|change|update|erase|hold|drop|undo|start|store|save|remove|restore|load|replace|choose)/;

/** A store that reads, and whose disk is full. */
const full = (store: Store): Store =>
  new Proxy(store, {
    get(target, verb) {
      if (CHANGES.test(String(verb))) return () => Promise.reject(new StorageError('disk', FULL));
      const value: unknown = Reflect.get(target, verb);
      return typeof value === 'function' ? value.bind(target) : value;
    },
  });

type Sent = { page: string; action: string; params?: Record<string, string>; form: Record<string, string> };

/** Changes of one button or form, with what a browser without scripts sends; `keeps`: what was typed must come back. */
const sent = ({ held }: Filled): (Sent & { keeps?: string })[] => [
  { page: '/before-a-list', action: 'type', form: { large: 'yes' } },
  { page: '/cases', action: 'showTimes', form: { goal: 'goal-1' } },
  { page: '/cases/bring-in', action: 'hold', form: { cells: 'case_id,capsulorhexis\nK1,80\n' }, keeps: 'K1,80' },
  { page: '/cases/bring-in/[id]', action: 'look', params: { id: held }, form: {} },
  { page: '/cases/bring-in/[id]', action: 'take', params: { id: held }, form: {} },
  { page: '/cases/bring-in/[id]', action: 'drop', params: { id: held }, form: {} },
  {
    page: '/checkpoints/[procedure]/[step]',
    action: 'remove',
    params: { procedure: 'phaco', step: 'capsulorhexis' },
    form: { id: 'own-1' },
  },
  { page: '/checkpoints/rehearsals/[id]', action: 'said', params: { id: 'rupture' }, form: {} },
  { page: '/settings', action: 'consent', form: {} },
  { page: '/after-twenty/[goal]', action: 'show', params: { goal: 'goal-1' }, form: {} },
  { page: '/reflect/new', action: 'store', form: { saw: 'a long text', willTry: '', tags: '' }, keeps: 'a long text' },
  {
    page: '/reflect/[id]',
    action: 'store',
    params: { id: 'reflection-1' },
    form: { saw: 'a long text', willTry: '', tags: '' },
    keeps: 'a long text',
  },
];

it('a full disk leads to no error page: the page says it, with what was typed', async () => {
  const here = await filled(await openMemoryStore());
  for (const { page, action, params = {}, form, keeps } of sent(here)) {
    const url = new URL(
      `http://127.0.0.1${page.replace(/\[(\w+)\]/g, (_, name: string) => params[name] ?? '')}?/${action}`,
    );
    const request = new Request(url, { method: 'POST', body: new URLSearchParams(form) });
    const { actions } = (await modules[`../../src/routes${page}/+page.server.ts`]?.()) ?? {};
    const locals = { store: full(here.store), now: '2026-11-25T08:00:00.000Z' };
    let answer: unknown;
    try {
      answer = await actions?.[action]?.({
        url,
        params,
        locals,
        request,
        route: { id: page },
      } as unknown as RequestEvent);
    } catch (why) {
      throw new Error(`${page}?/${action}: ${isRedirect(why) ? 'went on as if it were stored' : String(why)}`, {
        cause: why,
      });
    }
    expect(isActionFailure(answer), `${page}?/${action}`).toBe(true);
    const { status, data } = answer as ActionFailure<{ errors: { message: string }[] }>;
    expect([page, status, data.errors.map(({ message }) => message)]).toEqual([page, 409, [FULL]]);
    if (keeps !== undefined) expect(JSON.stringify(data)).toContain(keeps);
  }
}, 180_000);
