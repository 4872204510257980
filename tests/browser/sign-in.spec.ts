import { readFile } from 'node:fs/promises';
import { join } from 'node:path';
import { spawnSync } from 'node:child_process';
import { request as httpRequest, type IncomingHttpHeaders } from 'node:http';
import type { App } from './app';
import { expect, test } from './fixture';

const WORDS = 'a lamp in the window';
type Answer = { status: number; headers: IncomingHttpHeaders; body: string };

const ask = (origin: string, path: string, headers: Record<string, string> = {}, body?: string): Promise<Answer> =>
  new Promise((resolve, reject) => {
    const { hostname, port } = new URL(origin);
    const method = body === undefined ? 'GET' : 'POST';
    const sent = httpRequest({ hostname, port, path, method, headers }, (response) => {
      let text = '';
      response.on('data', (chunk) => (text += chunk));
      response.on('end', () => resolve({ status: response.statusCode ?? 0, headers: response.headers, body: text }));
    });
    sent.on('error', reject);
    sent.end(body);
  });
const post = (origin: string, path: string, fields: Record<string, string>, headers: Record<string, string> = {}) => {
  const body = new URLSearchParams(fields).toString();
  return ask(
    origin,
    path,
    {
      origin,
      accept: 'text/html',
      'content-type': 'application/x-www-form-urlencoded',
      'content-length': String(body.length),
      ...headers,
    },
    body,
  );
};
const sessionOf = ({ headers }: Answer) => String(headers['set-cookie']?.[0] ?? '');

/** A record with the passphrase set. */
const guarded = async (app: App) => {
  await app.startEmpty();
  const set = await post(app.origin, '/settings?/passphrase', { old: '', passphrase: WORDS, again: WORDS });
  expect(set.status).toBe(303);
};

test('a passphrase set in Settings is asked for before any page, and lets in who knows it', async ({ app, page }) => {
  await app.startEmpty();
  await page.goto(`${app.origin}/settings`);
  await page.getByText('Set a passphrase', { exact: true }).click();
  await page.getByLabel('New passphrase').fill('short');
  await page.getByLabel('The same again').fill('short');
  await page.getByRole('button', { name: 'Set it' }).click();
  await expect(page.getByRole('alert')).toContainText('At least 12 characters');
  await page.getByLabel('New passphrase').fill(WORDS);
  await page.getByLabel('The same again').fill(WORDS);
  await page.getByLabel('Encrypt the folder with it too').uncheck(); // ticked where several people have an account
  await page.getByRole('button', { name: 'Set it' }).click();
  await expect(page.getByText('The passphrase is set.')).toBeVisible();

  await page.getByRole('button', { name: 'Sign out', exact: true }).click();
  await expect(page.getByRole('heading', { level: 1 })).toContainText('opened with a passphrase');
  await page.goto(`${app.origin}/cases?list=3`);
  await expect(page.getByLabel('Passphrase')).toBeVisible();
  await expect(page.getByRole('link', { name: 'Cases' })).toHaveCount(0);
  await page.getByLabel('Passphrase').fill('not this one at all');
  await page.getByRole('button', { name: 'Sign in' }).click();
  await expect(page.getByRole('alert')).toContainText('This is not the passphrase.');
  await page.getByLabel('Passphrase').fill(WORDS);
  await page.getByRole('button', { name: 'Sign in' }).click();
  await expect(page).toHaveURL(`${app.origin}/cases?list=3`);
});

test('an encrypted record is opened by who signs in after a start, and by nobody else', async ({ app, page }) => {
  await app.startEmpty();
  expect((await post(app.origin, '/before-a-list?/type', { large: 'yes' })).status).toBe(303);
  await page.goto(`${app.origin}/settings`);
  await page.getByText('Set a passphrase', { exact: true }).click();
  await page.getByLabel('New passphrase').fill(WORDS);
  await page.getByLabel('The same again').fill(WORDS);
  await page.getByLabel('Encrypt the folder with it too').check();
  await page.getByRole('button', { name: 'Set it' }).click();
  await expect(page.getByText('Every file of the record is encrypted (AES-256-GCM)')).toBeVisible();
  expect((await readFile(join(app.folder, 'profile.json'))).subarray(0, 4).toString()).toBe('NT20');

  await app.stop();
  await app.run();
  expect((await ask(app.origin, '/settings/everything.json')).status).toBe(303);
  await page.goto(`${app.origin}/cases`);
  await expect(page.getByText('without the passphrase nobody can read this record')).toBeVisible();
  await page.getByLabel('Passphrase').fill('not this one at all');
  await page.getByRole('button', { name: 'Sign in' }).click();
  await expect(page.getByRole('alert')).toContainText('This is not the passphrase.');
  await page.getByLabel('Passphrase').fill(WORDS);
  await page.getByRole('button', { name: 'Sign in' }).click();
  await expect(page).toHaveURL(`${app.origin}/cases`);
});

test('nothing of the record is told, and nothing changed, without signing in', async ({ app }) => {
  await guarded(app);
  const { origin } = app;
  for (const path of [
    '/',
    '/cases',
    '/settings/everything.json',
    '/cases/cases.csv',
    '/report/report.json',
    '/reminders.ics',
    '/no-such-page',
  ]) {
    const { status, headers, body } = await ask(origin, path);
    expect([status, String(headers.location).startsWith('/sign-in'), body], path).toEqual([303, true, '']);
  }
  const data = await ask(origin, '/cases/__data.json');
  expect(JSON.parse(data.body)).toMatchObject({ type: 'redirect', location: expect.stringContaining('/sign-in') });
  const changed = await post(origin, '/settings?/profile', { procedureId: 'sics' });
  expect([changed.status, changed.body]).toEqual([401, expect.stringContaining('what you typed is still in the form')]);
  const typed = await post(
    origin,
    '/settings?/profile',
    {},
    { 'x-sveltekit-action': 'true', accept: 'application/json' },
  );
  expect(JSON.parse(typed.body)).toMatchObject({
    type: 'error',
    error: { message: expect.stringContaining('still here') },
  });
  for (const path of ['/settings?/noPassphrase', '/settings?/passphrase'])
    expect((await post(origin, path, { old: '', passphrase: 'x'.repeat(20), again: 'x'.repeat(20) })).status).toBe(401);
  expect((await ask(origin, '/cases', { cookie: 'next-twenty-session=x' })).status).toBe(303);
});

test('the session is for this site and no script, ends everywhere at once, and is nobody else’s', async ({ app }) => {
  await guarded(app);
  const { origin } = app;
  const signed = await post(origin, '/sign-in?/in', { passphrase: WORDS, to: '//evil.example' });
  expect([signed.status, signed.headers.location]).toEqual([303, '/']);
  expect(sessionOf(signed)).toMatch(/^next-twenty-session=[\w-]{43};/);
  expect(sessionOf(signed)).toMatch(/HttpOnly/i);
  expect(sessionOf(signed)).toMatch(/SameSite=Strict/i);
  expect(sessionOf(signed)).not.toMatch(/Secure|Domain|Max-Age|Expires/i);
  const cookie = sessionOf(signed).split(';')[0] ?? '';
  expect((await ask(origin, '/cases', { cookie })).status).toBe(200);
  const elsewhere = await post(origin, '/sign-in?/everywhere', {}, { cookie, origin: 'http://evil.example' });
  expect(elsewhere.status).toBe(403);
  expect((await ask(origin, '/cases', { cookie })).status).toBe(200);
  // Somebody outside cannot sign out those inside.
  await post(origin, '/sign-in?/everywhere', {});
  expect((await ask(origin, '/cases', { cookie })).status).toBe(200);
  const out = await post(origin, '/sign-in?/everywhere', {}, { cookie });
  expect([out.status, out.headers['clear-site-data']]).toEqual([303, '"cache", "storage"']);
  expect((await ask(origin, '/cases', { cookie })).status).toBe(303);
});

test('guesses wait, and one sent from another site is not looked at', async ({ app }) => {
  await guarded(app);
  const { origin } = app;
  expect((await post(origin, '/sign-in?/in', { passphrase: WORDS }, { origin: 'http://evil.example' })).status).toBe(
    403,
  );
  const answers = [];
  for (let wrong = 0; wrong < 6; wrong += 1)
    answers.push((await post(origin, '/sign-in?/in', { passphrase: `wrong number ${wrong}` })).body);
  expect(answers.slice(0, 4).every((body) => body.includes('This is not the passphrase.'))).toBe(true);
  expect(answers[5]).toContain('Too many tries. Wait');
});

test('another address answers with a passphrase only, says what plain http means, and under that name alone', async ({
  app,
}) => {
  await guarded(app);
  const copy = await app.copyOfFolder();
  const started = (env: Record<string, string>) =>
    spawnSync(process.execPath, ['src/run/serve.js'], {
      env: { ...process.env, NEXT_TWENTY_DATA: copy, PORT: '0', ...env },
      encoding: 'utf8',
      timeout: 8000,
    });
  // 127.0.0.2 is this computer too, but not the address that is open without a passphrase.
  const plain = started({ HOST: '127.0.0.2' });
  expect(plain.stderr).toContain('whoever is between can read what is sent');
  expect(plain.stdout).toMatch(/listening http:\/\/127\.0\.0\.2:\d+/);
  const empty = started({ HOST: '127.0.0.2', NEXT_TWENTY_DATA: `${copy}-none` });
  expect([empty.status, empty.stderr]).toEqual([1, expect.stringContaining('with a passphrase only, and none is set')]);
});
