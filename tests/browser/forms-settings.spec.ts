import { mkdtemp, readdir, readFile, rm, writeFile } from 'node:fs/promises';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { expect, test } from './fixture';
import { formsOf, press, sentForms, unfold } from './forms';
import { everythingOf, startWith } from './records';

const isPlain = async (folder: string) => (await readFile(join(folder, 'profile.json'), 'utf8')).startsWith('{');

test.use({ javaScriptEnabled: false });
test.beforeAll(({ app }) => startWith(app, 'empty'));

test('every form of Now and Settings works without scripts', async ({ page, context, app }) => {
  test.setTimeout(240_000);
  const sent = sentForms(context);

  await test.step('look round', async () => {
    await page.goto('/');
    await page.locator('input[name="surgeon"][value="fellow"]').check();
    await press(page, 'Look round with an invented surgeon');
    await expect(page.getByText('You are looking round with an invented surgeon.')).toBeVisible();
  });

  await test.step('a drill logged in one tap, and undone', async () => {
    const practice = page.locator('section', { has: page.getByRole('heading', { name: /^The practice month on/ }) });
    const log = async () => (await everythingOf(app)).goals.map(({ drillLog = [] }) => drillLog.length);
    await expect(practice.getByText('Nothing here falls due')).toBeVisible();
    await practice
      .getByRole('button', { name: /^Passed: log it/ })
      .first()
      .click();
    await expect(practice.getByText('Logged once.')).toBeVisible();
    expect(await log()).toEqual([0, 1]);
    await practice.getByRole('button', { name: /^Undo the latest entry/ }).click();
    await expect(practice.getByText('Logged once.')).toHaveCount(0);
    expect(await log()).toEqual([0, 0]);
  });

  await test.step('circumstances, the rate of serious events, consent', async () => {
    await page.goto('/settings');
    await page.locator('input[name="casesBefore"]').fill('many');
    await press(page, 'Store');
    await expect(page.getByRole('alert')).toBeVisible();
    await page.locator('input[name="casesBefore"]').fill('75');
    await page.locator('input[name="inTraining"][value="no"]').check();
    await press(page, 'Store');
    await expect(page.getByText('Stored.', { exact: true })).toBeVisible();
    await unfold(page, 'Set another rate, with its source');
    await page.locator('input[name="rate"]').fill('2,5');
    await page.locator('input[name="source"]').fill('Audit of our unit, 2025');
    await press(page, 'Store the rate');
    await expect(page.getByText('against 2.5 in 100 operations')).toBeVisible();
    await press(page, 'I have checked this');
    await expect(page.getByText('Noted for recordings.')).toBeVisible();
    expect((await everythingOf(app)).profile).toMatchObject({
      inTraining: false,
      casesBefore: { phaco: 75 },
      seriousRate: { rate: 0.025, source: 'Audit of our unit, 2025' },
    });
  });

  await test.step('a packet for a colleague, and one from a colleague', async () => {
    await page.goto('/settings/packet');
    await expect(page.getByText('A packet needs at least 10 of your own cases')).toBeVisible(); // invented cases go to nobody
    const packet = (name: string, cases: number) => ({
      name,
      mimeType: 'application/json',
      buffer: Buffer.from(JSON.stringify(packetOf(cases))),
    });
    await page.locator('input[name="packet"]').setInputFiles(packet('short.json', 9));
    await press(page, 'Look at the packet');
    await expect(page.getByRole('alert')).toContainText('at least 10');
    await page.locator('input[name="packet"]').setInputFiles(packet('packet.json', 12));
    await press(page, 'Look at the packet');
    await expect(page.getByText('12 cases of one surgeon')).toBeVisible();
    await expect(page.getByText('is timed otherwise')).toBeVisible();
    await press(page, 'Keep it as a reference set');
    await expect(page.getByRole('alert')).toContainText('agreed');
    await page.locator('input[name="label"]').fill('A colleague');
    await page.locator('input[name="agreed"]').check();
    await press(page, 'Keep it as a reference set');
    await expect(page.getByText('The packet is kept as a reference set.')).toBeVisible();
    expect((await everythingOf(app)).references.find(({ label }) => label === 'A colleague')?.cases).toHaveLength(12);
    await press(page, 'Remove A colleague');
  });

  await test.step('a reference set removed', async () => {
    await press(page, 'Remove Three experienced surgeons of the unit');
    await expect(page.getByText('The reference set was removed.')).toBeVisible();
    expect((await everythingOf(app)).references).toEqual([]);
  });

  let backup = '';
  await test.step('everything out, the invented surgeon away, a file in and back, everything in again', async () => {
    backup = JSON.stringify(await everythingOf(app));
    await press(page, 'Remove the invented surgeon');
    await expect(page.getByText('The invented surgeon was removed')).toBeVisible();
    expect((await everythingOf(app)).cases).toEqual([]);

    await page.goto('/cases/bring-in');
    await page.locator('textarea[name="cells"]').fill('case_id,step,seconds\nB1,Rhexis,80');
    await press(page, 'Look at the cells');
    await press(page, /^Take /);
    await page.goto('/settings/restore');
    await page.locator('input[type="file"]').setInputFiles({
      name: 'next-twenty.json',
      mimeType: 'application/json',
      buffer: Buffer.from(backup),
    });
    await press(page, 'Bring everything back');
    await expect(page.getByRole('alert')).toBeVisible();
    await page.goto('/settings');
    await press(page, 'Take this whole import back');
    await expect(page.getByText('The whole import was taken back.')).toBeVisible();

    await page.goto('/settings/restore');
    await page.locator('input[type="file"]').setInputFiles({
      name: 'next-twenty.json',
      mimeType: 'application/json',
      buffer: Buffer.from(backup),
    });
    await press(page, 'Bring everything back');
    await expect(page.getByText('Everything from the file is here again.')).toBeVisible();
    expect(JSON.stringify(await everythingOf(app))).toBe(backup);
  });

  await test.step('a damaged file: brought back from the export, another gone on without', async () => {
    await app.cutFile('results.json');
    await page.goto('/');
    await page.getByRole('link', { name: 'What that means, and what to do' }).click();
    await expect(page.getByRole('heading', { name: 'results.json' })).toBeVisible();
    // An export of the record as it is now does not hold that file.
    await page.locator('input[type="file"]').setInputFiles({
      name: 'now.json',
      mimeType: 'application/json',
      buffer: Buffer.from(await (await fetch(new URL('/settings/everything.json', app.origin))).text()),
    });
    await press(page, 'Bring it back from this file');
    await expect(page.getByRole('alert')).toContainText('so it does not hold it');
    await page.locator('input[type="file"]').setInputFiles({
      name: 'next-twenty.json',
      mimeType: 'application/json',
      buffer: Buffer.from(backup),
    });
    await press(page, 'Bring it back from this file');
    await expect(page.getByText('That file was brought back.')).toBeVisible();
    expect(JSON.stringify(await everythingOf(app))).toBe(backup);
    await app.cutFile('results.json');
    await page.goto('/settings/damaged');
    await press(page, 'Bring it back from this backup');
    await expect(page.getByText('That file was brought back from its newest good backup.')).toBeVisible();
    await app.cutFile('results.json');
    await page.goto('/settings/damaged');
    await press(page, 'Go on without it');
    await expect(page.getByText('The record goes on without that file.')).toBeVisible();
    expect((await everythingOf(app)).results).toEqual([]);
  });

  await test.step('backups: how long they are kept, copies elsewhere, one brought back and that undone', async () => {
    const months = async () => (await everythingOf(app)).profile.backupMonths;
    await page.goto('/settings/backups');
    await press(page, 'Delete these copies');
    await expect(page.getByText('Those copies are gone.')).toBeVisible();
    await page.locator('input[name="months"]').fill('many');
    await press(page, 'Store');
    await expect(page.getByRole('alert')).toBeVisible();
    const before = await months();
    await page.locator('input[name="months"]').fill('7');
    await press(page, 'Store');
    await expect(page.getByText('Stored. Backups older than that are gone.')).toBeVisible();
    expect(await months()).toBe(7);
    await page
      .locator('main')
      .getByRole('link', { name: /^Before / })
      .first()
      .click();
    await press(page, 'Bring everything back as it stood then');
    await expect.poll(months).toBe(before);
    await press(page, 'Undo this');
    await expect.poll(months).toBe(7);

    const elsewhere = await mkdtemp(join(tmpdir(), 'next-twenty-second-'));
    await page.locator('input[name="second"]').fill(join(elsewhere, 'not-there'));
    await press(page, 'Copy to this folder');
    await expect(page.getByRole('alert')).toBeVisible();
    await page.locator('input[name="second"]').fill(elsewhere);
    await press(page, 'Copy to this folder');
    await expect(page.getByText('Stored.', { exact: true })).toBeVisible();
    await expect.poll(async () => (await readdir(elsewhere)).length).toBe(1);
    await page.locator('input[name="second"]').fill('');
    await press(page, 'Store, and copy now');
    await expect(page.getByRole('button', { name: 'Copy to this folder' })).toBeVisible();
    await rm(elsewhere, { recursive: true });
  });

  await test.step('faults that were seen, and their log deleted', async () => {
    const fault = { at: '2026-11-29T08:00:00.000Z', id: 'ab12cd34', where: '/choose', what: 'TypeError', frames: [] };
    await writeFile(join(app.folder, 'faults.log'), `${JSON.stringify(fault)}\n`);
    await page.goto('/settings/faults');
    await expect(page.getByText('ab12cd34')).toBeVisible();
    await press(page, 'Delete this log');
    await expect(page.getByText('No fault has been seen.')).toBeVisible();
  });

  await test.step('a passphrase set, and removed', async () => {
    await page.goto('/settings');
    await unfold(page, 'Set a passphrase');
    await page.locator('input[name="passphrase"]').fill('four plain words together');
    await page.locator('input[name="again"]').fill('four plain words apart');
    await page.locator('input[name="encrypt"]').uncheck(); // ticked where several people have an account here
    await press(page, 'Set it');
    await expect(page.getByRole('alert')).toBeVisible();
    await page.locator('input[name="passphrase"]').fill('four plain words together');
    await page.locator('input[name="again"]').fill('four plain words together');
    await page.locator('input[name="encrypt"]').uncheck();
    await press(page, 'Set it');
    await expect(page.getByText('The passphrase is set.')).toBeVisible();
    expect((await fetch(new URL('/settings/everything.json', app.origin), { redirect: 'manual' })).status).not.toBe(
      200,
    );
    const old = (action: string) => page.locator(`form[action="?/${action}"] input[name="old"]`);
    await old('encrypt').fill('four plain words apart');
    await press(page, 'Encrypt every file');
    await expect(page.getByRole('alert')).toContainText('This is not the passphrase.');
    expect(await isPlain(app.folder)).toBe(true);
    await old('encrypt').fill('four plain words together');
    await press(page, 'Encrypt every file');
    await expect(page.getByText('Every file of the record is encrypted (AES-256-GCM)')).toBeVisible();
    expect(await isPlain(app.folder)).toBe(false);
    await old('decrypt').fill('four plain words together');
    await press(page, 'Make the files plain again');
    await expect(page.getByText('The files of the folder are plain again.')).toBeVisible();
    expect(await isPlain(app.folder)).toBe(true);
    await unfold(page, 'Change or remove it');
    await old('passphrase').fill('four plain words together');
    await press(page, 'Remove it');
    await expect(page.getByText('The passphrase was removed.')).toBeVisible();
    expect((await fetch(new URL('/settings/everything.json', app.origin))).status).toBe(200);
  });

  // Procedures of one's own have a test of their own.
  expect([...sent].filter((form) => !form.startsWith('/cases')).sort()).toEqual(
    formsOf(['/', '/settings'], ['/settings/procedures']),
  );
});

/** What a colleague's program would have written. */
const packetOf = (cases: number) => ({
  format: 'next-twenty/reference-packet/1',
  procedure: { id: 'phaco', name: 'Phacoemulsification' },
  steps: [{ id: 'capsulorhexis', label: 'Capsulorhexis', starts: 'the needle is seen', ends: 'the flap is out' }],
  facts: [],
  cases: Array.from({ length: cases }, (_, n) => ({
    list: 1 + (n % 3),
    facts: {},
    stepSeconds: { capsulorhexis: 60 + n },
  })),
});
