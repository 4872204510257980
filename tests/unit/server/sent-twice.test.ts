import { describe, expect, it } from 'vitest';
import { SentTwice } from '../../../src/lib/server/sent-twice';

const post = (body: string, over: { url?: string; type?: string; script?: boolean } = {}) =>
  new Request(`http://127.0.0.1:4620${over.url ?? '/cases/lists/new?/make'}`, {
    method: 'POST',
    body,
    headers: {
      'content-type': over.type ?? 'application/x-www-form-urlencoded',
      ...(over.script ? { 'x-sveltekit-action': 'true' } : {}),
    },
  });

/** A server that counts what it does; each work leads to a page of its own. */
function server(answerOf = (n: number) => new Response(null, { status: 303, headers: { location: `/done/${n}` } })) {
  const once = new SentTwice();
  let done = 0;
  const send = async (body: string, over?: Parameters<typeof post>[1], now = 0) => {
    const response = await once.answer(post(body, over), now, async () => {
      await new Promise((soon) => setTimeout(soon, 5));
      return answerOf((done += 1));
    });
    return response.headers.get('location') ?? (await response.text());
  };
  return { send, done: () => done };
}

describe('a form sent twice', () => {
  it('works once, one after the other and both at once, and is answered alike', async () => {
    const { send, done } = server();
    expect(await Promise.all([send('code=A'), send('code=A')])).toEqual(['/done/1', '/done/1']);
    expect(await send('code=A')).toBe('/done/1');
    expect(done()).toBe(1);
  });

  it('by a script works once too', async () => {
    const { send, done } = server((n) => new Response(`{"type":"redirect","location":"/${n}"}`, { headers: { 'content-type': 'application/json' } })); // prettier-ignore
    const script = { script: true };
    expect(await Promise.all([send('a=1', script), send('a=1', script)])).toEqual(Array(2).fill('{"type":"redirect","location":"/1"}')); // prettier-ignore
    expect(done()).toBe(1);
  });

  it('with another text, to another address, or ten minutes later is another form', async () => {
    const { send, done } = server();
    await send('code=A');
    expect(await send('code=B')).toBe('/done/2');
    expect(await send('code=B', { url: '/cases/new?/facts' })).toBe('/done/3');
    expect(await send('code=B', { url: '/cases/new?/facts' }, 600_001)).toBe('/done/4');
    expect(done()).toBe(4);
  });

  it('after another change is a change again: on, off and on are three', async () => {
    const { send, done } = server();
    for (const body of ['large=yes', 'large=no', 'large=yes']) await send(body);
    expect(done()).toBe(3);
  });

  it('after a form with a file, of which nothing is kept, is a change again', async () => {
    const { send, done } = server();
    await send('a=1');
    await send('x', { type: 'multipart/form-data; boundary=x' });
    await send('x', { type: 'multipart/form-data; boundary=x' });
    await send('a=1');
    expect(done()).toBe(4);
  });

  it('that was refused, failed or only showed something is tried again', async () => {
    const json = (body: string) => new Response(body, { headers: { 'content-type': 'application/json' } });
    for (const answer of [
      () => new Response('no', { status: 400 }),
      () => json('{"type":"failure","status":400}'),
      () => json('{"type":"success"}'),
      () => new Response(null, { status: 303, headers: { location: '/', 'set-cookie': 'session=1' } }),
    ]) {
      const { send, done } = server(answer);
      await send('a=1');
      await send('a=1');
      expect(done()).toBe(2);
    }
  });

  it('whose first try broke is tried again', async () => {
    const once = new SentTwice();
    const broken = once.answer(post('a=1'), 0, () => Promise.reject(new Error('disk full')));
    await expect(broken).rejects.toThrow('disk full');
    expect((await once.answer(post('a=1'), 0, async () => new Response('ok'))).status).toBe(200);
  });
});
