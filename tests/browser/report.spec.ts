import { expect, test } from './fixture';
import { open } from './open';
import { printed } from './paper';
import { everythingOf, post, startWith } from './records';

test.beforeAll(({ app }) => startWith(app, 'fellow'));

test('the report of every goal and month prints on one A4 side and names no day', async ({ page }) => {
  await page.goto('/report');
  const choices = await page
    .locator('select[name="of"] option')
    .evaluateAll((options) => options.map((option) => (option as HTMLOptionElement).value));
  // Two goals, their year, and months.
  expect(choices.filter((choice) => choice.startsWith('goal-'))).toHaveLength(2);
  expect(choices).toContain('2026');
  expect(choices.length).toBeGreaterThan(6);
  for (const choice of choices) {
    await page.goto(`/report?of=${choice}`);
    await expect(page.locator('main article, main .report').first(), choice).toBeVisible();
    expect(await page.locator('main').innerText(), choice).not.toMatch(/\b20\d\d-\d\d-\d\d\b/);
    expect(await printed(page), choice).toEqual({ sides: 1, width: 210, height: 297 });
  }
});

test('two notes still fit on the side of a goal with a result and its following twenties', async ({ page }) => {
  await page.goto('/report?of=goal-1');
  const notes = await page
    .locator('input[name="note"]')
    .evaluateAll((all) => all.slice(0, 2).map((one) => (one as HTMLInputElement).value));
  expect(notes).toHaveLength(2);
  await page.goto(`/report?of=goal-1${notes.map((id) => `&note=${id}`).join('')}`);
  await expect(page.getByRole('heading', { name: 'From my notes' })).toBeVisible();
  expect((await printed(page)).sides).toBe(1);
});

test('text that looks like a person stays out of the report and its files until it is said to be nobody', async ({
  page,
  app,
}) => {
  await page.goto('/reflect');
  await page.locator('main article a').first().click();
  await page.locator('textarea[name="saw"]').fill('Dr Brown held the eye still.');
  await page.locator('textarea[name="willTry"]').fill('Hold the flap close to the tear.');
  await page.getByRole('button', { name: 'Store the change' }).click();
  await page.locator('input[name="nobody"]').check();
  await page.getByRole('button', { name: 'Store the change' }).click();
  await expect(page.getByText('Your change is stored')).toBeVisible();
  const id = /reflection-\d+/.exec(page.url())?.[0] ?? '';
  // As in a record written before such answers were kept: what was said to be none is not asked again.
  await app.changeFile('profile.json', (content) => {
    delete (content as { profile: { notPersons?: unknown } }).profile.notPersons;
  });
  const files = ['/report/report.md', '/report/report.json'];

  await page.goto(`/report?of=goal-2&note=${id}`);
  await expect(page.getByRole('alert')).toContainText('"Dr Brown" looks like a name');
  await expect(page.locator('article.report')).toContainText('Hold the flap close to the tear.');
  await expect(page.locator('article.report')).not.toContainText('Brown');
  for (const file of files)
    expect(await (await page.request.get(`${file}?of=goal-2&note=${id}`)).text(), file).not.toContain('Brown');

  await page.getByLabel('It identifies nobody').check();
  await page.getByRole('button', { name: 'Put it in' }).click();
  await expect(page.locator('article.report')).toContainText('Dr Brown held the eye still.');
  for (const name of ['Markdown', 'JSON']) {
    const href = await page.getByRole('link', { name, exact: true }).getAttribute('href');
    expect(await (await page.request.get(href ?? '')).text(), name).toContain('Brown');
  }
});

test('the note and the report keep their paper when one is opened after the other', async ({ page }) => {
  await page.setViewportSize({ width: 1440, height: 900 });
  await open(page, '/before-a-list');
  await page.getByRole('link', { name: 'Report' }).click();
  await expect(page.locator('article.report')).toBeVisible();
  expect(await printed(page)).toEqual({ sides: 1, width: 210, height: 297 });
  await page.getByRole('link', { name: 'Before a list' }).click();
  await expect(page.getByText('Not the team brief.')).toBeVisible();
  expect(await printed(page)).toEqual({ sides: 1, width: 148, height: 210 });
});

test('the list sheet prints twenty or 25 rows on one side, forty on two, and has no column for a time', async ({
  page,
}) => {
  for (const [rows, sides] of [
    [20, 1],
    [25, 1],
    [40, 2],
  ] as const) {
    await page.goto(`/cases/list-sheet?rows=${rows}`);
    await expect(page.locator('main tbody tr')).toHaveCount(rows);
    expect((await page.locator('main thead').innerText()).toLowerCase()).not.toMatch(/time|second|minute|length/);
    expect((await printed(page)).sides, `${rows} rows`).toBe(sides);
  }
});

test('the report and After twenty say the same of cases erased after the result was read', async ({ page, app }) => {
  const { cases, results } = await everythingOf(app);
  const result = results.find(({ goalId }) => goalId === 'goal-1');
  const answered = (ids: readonly string[]) =>
    ids.map((id) => cases.find((one) => one.id === id)).filter((one) => one?.events?.length === 0);
  const [start] = answered(result?.baselineIds ?? []);
  const [, ofWindow] = answered(result?.windowIds ?? []);
  const gone = [start, ofWindow];
  for (const one of gone) {
    await page.goto(`/cases/${one?.id}`);
    await page.locator('summary', { hasText: 'Erase this case everywhere' }).click();
    await expect(page.getByText('The answer that there was no event leaves the record.')).toBeVisible();
    await post(app, `/cases/${one?.id}?/erase`, { confirm: one?.code ?? '', version: String(one?.version) });
  }

  await page.goto('/after-twenty/goal-1');
  const said = [
    `1 of the ${result?.baselineIds.length} baseline cases has been taken out of the record since.`,
    '1 of the 20 cases of the window has been taken out of the record since.',
    'Erased, with events answered: 1 baseline case and 1 case of the window. The counts of events are lower for that reason.',
  ];
  const note = page
    .locator('.note')
    .filter({ has: page.getByRole('heading', { name: "What today's data would give" }) });
  const today = await note.locator('p').innerText();
  const takeovers = await page.getByText(/^(No takeover of the step|The step was taken over)/).innerText();
  for (const each of said) await expect(page.locator('main')).toContainText(each);

  await page.goto('/report?of=goal-1');
  for (const each of [...said, today, takeovers]) await expect(page.locator('article.report')).toContainText(each);
  expect((await printed(page)).sides).toBe(1);
  for (const file of ['report.md', 'report.json']) {
    const text = await (await page.request.get(`/report/${file}?of=goal-1`)).text();
    for (const each of [...said, takeovers]) expect(text, file).toContain(each);
    for (const one of gone) expect(text, file).not.toContain(one?.code);
  }
  const csv = await (await page.request.get('/report/report.csv?of=goal-1')).text();
  expect(csv).toContain('cases of the window taken out since the result was read,1,,,20,cases');
  expect(csv).toMatch(/takeovers of the step,\d+,,,\d+,cases/);
  await page.goto('/report?of=2026');
  await expect(page.locator('article.report')).toContainText(said[1] ?? '');
});
