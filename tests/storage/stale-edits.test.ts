import { isActionFailure, isRedirect, type RequestEvent } from '@sveltejs/kit';
import { beforeAll, describe, expect, it } from 'vitest';
import { openMemoryStore } from '../../src/lib/server/storage';
import { aCase as aNewCase } from '../made-up/stored';
import { freshFolder, openIn } from './stores';
import { filled, modules, type Filled } from './rooms';

type Action = (event: RequestEvent) => Promise<unknown>;
type Values = Record<string, readonly string[]>;
type Answer = { errors: { message: string }[]; values: Values; seen?: string; version?: number };
const now = '2026-11-25T08:00:00.000Z';

let here: Filled;
beforeAll(async () => {
  here = await filled(await openMemoryStore());
});

async function press(
  page: string,
  action: string,
  params: Record<string, string>,
  form: Record<string, string | readonly string[]>,
) {
  const url = new URL(
    `http://127.0.0.1${page.replace(/\[(\w+)\]/g, (_, name: string) => params[name] ?? '')}?/${action}`,
  );
  const body = new URLSearchParams(
    Object.entries(form).flatMap(([name, texts]) => [texts].flat().map((text) => [name, text] as [string, string])),
  );
  const { actions } = (await modules[`../../src/routes${page}/+page.server.ts`]?.()) as {
    actions: Record<string, Action>;
  };
  try {
    const request = new Request(url, { method: 'POST', body });
    const event = { url, params, locals: { store: here.store, now }, request, route: { id: page } };
    const answer = await actions[action]?.(event as unknown as RequestEvent);
    return isActionFailure(answer) ? { status: answer.status, ...(answer.data as unknown as Answer) } : answer;
  } catch (why) {
    if (isRedirect(why)) return 'stored';
    throw why;
  }
}
const loaded = async <Data>(page: string, params: Record<string, string>) => {
  const { load } = (await modules[`../../src/routes${page}/+page.server.ts`]?.()) ?? {};
  const url = new URL(`http://127.0.0.1${page}`);
  return (await load?.({
    url,
    params,
    locals: { store: here.store, now },
    route: { id: page },
    depends() {},
  } as never)) as Data;
};
/** Nothing written, what is stored said, what was typed back again. */
const both = (stored: string, typed: string) => ({
  status: 409,
  errors: [
    {
      message: expect.stringMatching(
        new RegExp(
          `changed elsewhere since you opened it. Nothing was written. Stored now: .*${stored}[^]*What you typed is still here`,
        ),
      ),
    },
  ],
  values: expect.toSatisfy((values) => JSON.stringify(values).includes(typed)),
});

describe('an edit of what was changed elsewhere since shows both, and stores on the next press', () => {
  const aCase = async () => {
    const [one] = (await here.store.cases()).filter(({ stretches, listId }) => stretches.length > 0 && listId !== null);
    if (!one) throw new Error('there should be one');
    return one;
  };

  it('the place and remark of a case', async () => {
    const one = await aCase();
    await here.store.updateCase({ ...one, remark: { text: 'stored in another tab', stepId: null } }, 'Remark', now);
    const form = {
      version: String(one.version),
      list: one.listId ?? '',
      position: '9',
      side: '',
      remark: 'typed here',
      remarkStep: '',
    };
    const answer = await press('/cases/[id]', 'place', { id: one.id }, form);
    expect(answer).toMatchObject({ ...both('stored in another tab', 'typed here'), section: 'place' });
    expect((await here.store.caseById(one.id))?.remark?.text).toBe('stored in another tab');
    expect(await press('/cases/[id]', 'place', { id: one.id }, (answer as Answer).values)).toBe('stored');
    expect((await here.store.caseById(one.id))?.remark?.text).toBe('typed here');
  });

  it.each([
    ['hands', { 'hand-capsulorhexis': 'shared' }, 'All mine'],
    ['facts', { 'fact-pupil': 'small' }, 'Pupil: '],
    ['times', { stretches: '1', 'stretch-0-step': 'capsulorhexis', 'stretch-0-length': '1:00' }, '–|\\d:\\d\\d'],
    ['kept', { 'seen-lens-identity': 'yes' }, 'not looked for'],
    [
      'addEvent',
      { kind: 'wound-burn', eventStep: 'capsulorhexis', weight: 'near-miss', noticed: 'not-known' },
      'no event|not answered',
    ],
    ['leaveOut', { reason: 'other' }, 'it counts'],
    ['keep', { why: 'complaint' }, 'it can be changed'],
  ] as const)('another part of a case: %s', async (action, form, said) => {
    const one = await aCase();
    const before = await here.store.updateCase({ ...one, position: (one.position ?? 0) + 1 }, 'Place', now);
    const answer = await press('/cases/[id]', action, { id: one.id }, { ...form, version: String(one.version) });
    expect(answer).toMatchObject({
      ...both(said, Object.values(form).at(-1) ?? ''),
      values: { version: [String(before.version)] },
    });
    expect(await here.store.caseById(one.id)).toEqual(before);
  });

  it('one of several events is not touched by its place among others', async () => {
    const one = await aCase();
    await here.store.updateCase({ ...one, position: 4 }, 'Place', now);
    const answer = await press(
      '/cases/[id]',
      'removeEvent',
      { id: one.id },
      { version: String(one.version), index: '0' },
    );
    expect(answer).toMatchObject({
      errors: [{ message: expect.stringMatching(/gone already|open it again to see both/) }],
    });
  });

  it('rows of a list: every row that was changed elsewhere is named', async () => {
    const one = await aCase();
    const listId = one.listId ?? '';
    const rows = (await here.store.cases()).filter((each) => each.listId === listId && each.keptAsItIs === null);
    expect(rows.length).toBeGreaterThan(1);
    const [first, second] = rows;
    if (!first || !second) throw new Error('two rows');
    const form: Values = Object.fromEntries(
      [first, second].flatMap(({ id, version }) => [
        [`${id}.version`, [String(version)]],
        [`${id}.fact-pupil`, ['small']],
        [`${id}.hands`, ['mine']],
        [`${id}.events`, ['none']],
      ]),
    );
    for (const each of [first, second])
      await here.store.updateCase({ ...each, facts: { ...each.facts, pupil: 'large' } }, 'Pupil', now);
    const answer = (await press('/cases/lists/[id]', 'save', { id: listId }, form)) as Answer;
    expect(answer).toMatchObject(both('Pupil: large', 'small'));
    expect(answer.errors[0]?.message).toMatch(
      new RegExp(`Each of the cases (${first.code} and ${second.code}|${second.code} and ${first.code}) was changed`),
    );
    expect((await here.store.caseById(first.id))?.facts['pupil']).toBe('large');
    expect(await press('/cases/lists/[id]', 'save', { id: listId }, answer.values)).toBe('stored');
    expect((await here.store.caseById(first.id))?.facts['pupil']).toBe('small');
  });

  it('times of a list, and cases moved to another', async () => {
    const [list, other] = await here.store.lists();
    const listId = list?.id ?? '';
    const one = await here.store.recordCase({ ...aNewCase('T1', { sequence: 900, stretches: [] }), listId });
    await here.store.updateCase({ ...one, position: 8 }, 'Place', now);
    const version = { [`${one.id}.version`]: String(one.version) };
    const moved = await press(
      '/cases/lists/[id]',
      'move',
      { id: listId },
      { ...version, move: one.id, list: other?.id ?? '' },
    );
    expect(moved).toMatchObject(both('place 8', one.id));
    const timed = await press(
      '/cases/lists/[id]/times',
      'store',
      { id: listId },
      { ...version, steps: 'capsulorhexis', allMine: 'yes', [`${one.id}.time-capsulorhexis`]: '9:59' },
    );
    expect(timed).toMatchObject(both('no times', '9:59'));
  });

  it('a note', async () => {
    const [note] = await here.store.reflections();
    if (!note) throw new Error('a note');
    await here.store.updateReflection({ ...note, saw: 'stored in another tab' });
    const form = { version: String(note.version), case: note.caseIds, saw: 'typed here', willTry: '', tags: '' };
    const answer = (await press('/reflect/[id]', 'store', { id: note.id }, form)) as Answer;
    expect(answer).toMatchObject(both('stored in another tab', 'typed here'));
    expect((await here.store.reflections())[0]?.saw).toBe('stored in another tab');
    const again = { ...form, version: String(answer.version) };
    expect(await press('/reflect/[id]', 'store', { id: note.id }, again)).toBe('stored');
    expect((await here.store.reflections())[0]).toMatchObject({
      saw: 'typed here',
      history: expect.arrayContaining([expect.objectContaining({ saw: 'stored in another tab' })]),
    });
  });

  it('the second folder for copies', async () => {
    const store = await openIn(await freshFolder());
    const [there, typed] = [await freshFolder(), await freshFolder()];
    const before = here;
    here = { ...here, store };
    const { seenSecond } = await loaded<{ seenSecond: string }>('/settings/backups', {});
    const form = (second: string, seen = seenSecond) => ({ second, seen });
    expect(await press('/settings/backups', 'second', {}, form(there))).toBe('stored');
    const answer = (await press('/settings/backups', 'second', {}, form(typed))) as Answer;
    expect(answer).toMatchObject(both(there, typed));
    expect((await store.secondFolder())?.folder).toBe(there);
    expect(await press('/settings/backups', 'second', {}, answer.values)).toBe('stored');
    expect((await store.secondFolder())?.folder).toBe(typed);
    here = before;
  });

  it.each([
    ['/settings/procedures/[id]/steps/[step]', { id: 'phaco', step: 'capsulorhexis' }, 'store', 'label', 1],
    ['/settings/procedures/[id]/facts/[fact]', { id: 'phaco', fact: 'pupil' }, 'store', 'label', 2],
    ['/settings/procedures/[id]/words', { id: 'phaco' }, 'store', 'newReason', 3],
    ['/settings/procedures/[id]', { id: 'phaco' }, 'name', 'name', 4],
  ] as const)('what a procedure asks: %s', async (page, params, action, field, nth) => {
    type Loaded = { seen: string; view: { values?: Values; name?: string; synonyms?: string } };
    const tab = await loaded<Loaded>(page, params);
    const values = tab.view.values ?? { name: [tab.view.name ?? ''], synonyms: [tab.view.synonyms ?? ''] };
    const form = (text: string) => ({ ...values, seen: tab.seen, [field]: text });
    const [there, typed] = [`In another tab ${nth}`, `Typed here ${nth}`];
    const stands = async (text: string) => JSON.stringify(await here.store.procedures()).includes(text);
    expect(await press(page, action, params, form(there))).toBe('stored');
    const answer = (await press(page, action, params, form(typed))) as Answer;
    expect(answer).toMatchObject(both(there, typed));
    expect(await stands(typed)).toBe(false);
    expect(await press(page, action, params, answer.values)).toBe('stored');
    expect(await stands(typed)).toBe(true);
  });
});
