import { spawnSync } from 'node:child_process';
import { readFile } from 'node:fs/promises';
import { request as httpRequest, type IncomingHttpHeaders } from 'node:http';
import { join } from 'node:path';
import { expect, test } from './fixture';

type Answer = { status: number; headers: IncomingHttpHeaders; body: string };

/** Browsers do not let a page choose Host or Origin; somebody attacking one does. */
const ask = (
  origin: string,
  path: string,
  options: { method?: string; headers?: Record<string, string>; body?: string } = {},
): Promise<Answer> =>
  new Promise((resolve, reject) => {
    const { hostname, port } = new URL(origin);
    const sent = httpRequest(
      {
        hostname: hostname.replace(/^\[|\]$/g, ''),
        port,
        path,
        method: options.method ?? 'GET',
        headers: options.headers ?? {},
      },
      (response) => {
        let body = '';
        response.on('data', (chunk) => (body += chunk));
        response.on('end', () => resolve({ status: response.statusCode ?? 0, headers: response.headers, body }));
      },
    );
    sent.on('error', reject);
    sent.end(options.body);
  });

const form = { 'content-type': 'application/x-www-form-urlencoded' };

test('answers under its own name only', async ({ app }) => {
  const { port } = new URL(app.origin);
  expect((await ask(app.origin, '/')).status).toBe(200);
  for (const host of [
    'evil.example',
    `evil.example:${port}`,
    '127.0.0.1',
    `127.0.0.1.evil.example:${port}`,
    `0.0.0.0:${port}`,
  ])
    expect((await ask(app.origin, '/', { headers: { host } })).status, host).toBe(421);
  expect((await ask(app.origin, '/mark.svg', { headers: { host: 'evil.example' } })).status).toBe(421);
  expect((await ask(app.origin, 'http://evil.example/')).status).toBe(400);
});

test('leads its other names to the one origin', async ({ app }) => {
  const { port } = new URL(app.origin);
  for (const host of [`localhost:${port}`, `[::1]:${port}`]) {
    const answer = await ask(app.origin, '/cases?list=3', { headers: { host } });
    expect([answer.status, answer.headers.location]).toEqual([307, `${app.origin}/cases?list=3`]);
    const change = await ask(app.origin, '/cases', { method: 'POST', headers: { ...form, host }, body: 'a=1' });
    expect(change.status).toBe(421);
  }
});

test('opens at localhost in a browser', async ({ app, page }) => {
  await page.goto(`http://localhost:${new URL(app.origin).port}/`);
  expect(new URL(page.url()).origin).toBe(app.origin);
});

test('puts its headers on pages and files, and a policy of its own on pages', async ({ app }) => {
  for (const path of ['/', '/mark.svg', '/no-such-page']) {
    const { headers } = await ask(app.origin, path);
    expect(headers, path).toMatchObject({
      'x-content-type-options': 'nosniff',
      'x-frame-options': 'DENY',
      'referrer-policy': 'same-origin',
      'cross-origin-opener-policy': 'same-origin',
      'cross-origin-resource-policy': 'same-origin',
      'cache-control': 'no-store',
    });
  }
  const policy = String((await ask(app.origin, '/')).headers['content-security-policy']);
  for (const part of ["default-src 'none'", "script-src 'self' 'nonce-", "frame-ancestors 'none'", "base-uri 'none'"])
    expect(policy).toContain(part);
  expect(policy).not.toMatch(/unsafe-inline|unsafe-eval|\*/);
});

test('takes changes only from its own pages', async ({ app }) => {
  const post = (headers: Record<string, string>, body = 'a=1') =>
    ask(app.origin, '/settings', { method: 'POST', headers, body });
  const foreign = { origin: 'http://evil.example' };
  for (const headers of [
    { ...form, ...foreign },
    { 'content-type': 'application/json', ...foreign },
    { ...foreign }, // no content type: Kit's own check lets it through
    { ...form, origin: 'null' },
    { ...form },
    { ...form, origin: app.origin.replace('127.0.0.1', 'localhost') },
    { ...form, origin: app.origin, 'sec-fetch-site': 'cross-site' },
    { ...form, origin: app.origin, 'sec-fetch-site': 'same-site' },
  ])
    expect((await post(headers)).status, JSON.stringify(headers)).toBe(403);
  const own = await post({ ...form, origin: app.origin, 'sec-fetch-site': 'same-origin' });
  expect(own.status).not.toBe(403);
});

test('holds forms to 512 kB', async ({ app }) => {
  const body = `a=${'x'.repeat(600_000)}`;
  const own = { ...form, origin: app.origin };
  const large = await ask(app.origin, '/settings', {
    method: 'POST',
    headers: { ...own, 'content-length': `${body.length}` },
    body,
  });
  expect(large.status).toBe(413);
  const unknown = await ask(app.origin, '/settings', {
    method: 'POST',
    headers: { ...own, 'transfer-encoding': 'chunked' },
    body,
  });
  expect(unknown.status).toBe(411);
  const file = await ask(app.origin, '/cases/bring-in', {
    method: 'POST',
    headers: { ...own, 'content-length': `${body.length}` },
    body,
  });
  expect([411, 413]).not.toContain(file.status);
});

test('says who holds the folder, lets it go when stopped, and finds its record again', async ({ app }) => {
  const second = spawnSync(process.execPath, ['src/run/serve.js'], {
    env: { ...process.env, NEXT_TWENTY_DATA: app.folder, PORT: '0' },
    encoding: 'utf8',
  });
  expect([second.status, second.stderr]).toEqual([1, expect.stringContaining('is in use by process')]);
  expect(await app.stop('SIGINT')).toBe(0);
  await app.run();
  expect((await ask(app.origin, '/')).status).toBe(200);
});

test('refuses to answer beyond this computer', async ({ app }) => {
  const wide = spawnSync(process.execPath, ['src/run/serve.js'], {
    env: { ...process.env, NEXT_TWENTY_DATA: app.folder, PORT: '0', HOST: '192.0.2.1' },
    encoding: 'utf8',
  });
  expect([wide.status, wide.stderr]).toEqual([1, expect.stringContaining('a passphrase only, and none is set')]);
});

test('answers odd forms with a reason, never with a fault of its own', async ({ app }) => {
  const own = (type: string) => ({ 'content-type': type, origin: app.origin, accept: 'text/html' });
  const cut = '--b\r\nContent-Disposition: form-data; name="code"\r\n\r\nA1';
  const urls = [
    '/settings?/profile',
    '/cases/new?/facts',
    '/cases/bring-in?/hold',
    '/settings/restore?/restore',
    '/reflect/new?/store',
  ];
  for (const path of urls) {
    const sent = async (type: string, body: string) => {
      const headers = { ...own(type), 'content-length': `${Buffer.byteLength(body)}` };
      return (await ask(app.origin, path, { method: 'POST', headers, body })).status;
    };
    expect(await sent('multipart/form-data; boundary=b', cut), `cut, ${path}`).toBe(400);
    expect(await sent('multipart/form-data', 'x'), `without a boundary, ${path}`).toBe(400);
    expect(await sent('text/plain', 'code=A1'), `plain text, ${path}`).toBe(400);
    expect(await sent('application/json', '{"__proto__":{"a":1}}'), `JSON, ${path}`).toBe(415);
    const names = await sent('application/x-www-form-urlencoded', '__proto__=x&constructor=y&toString=z&__proto__.a=1');
    expect([200, 303, 400], `names that every object answers to, ${path}`).toContain(names);
  }
  // None of it was a fault of this program.
  expect(await readFile(join(app.folder, 'faults.log'), 'utf8').catch(() => '')).toBe('');
});
