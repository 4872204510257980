import type { Page } from 'playwright/test';
import { madeClip } from './clips';
import { expect, test } from './fixture';
import { open } from './open';
import { everythingOf, post, startWith } from './records';

test.beforeAll(({ app }) => startWith(app, 'fellow'));

const shown = async (page: Page, nth: number) =>
  Number((await page.locator('.clock').nth(nth).getAttribute('data-shown')) ?? NaN);
const secondsOf = (reading: string) => reading.split(':').reduce((sum, part) => sum * 60 + Number(part), 0);

test('two recordings stand at the same moment of a step, and a note from them goes to Reflect with both codes', async ({
  page,
  app,
}) => {
  test.setTimeout(240_000);
  await post(app, '/settings?/consent', {});
  await open(page, '/choose/capsulorhexis/pair');
  const spans = (await page.getByText(/^Why this one: /).allInnerTexts()).map((text) =>
    [...text.matchAll(/(\d+:\d\d) to (\d+:\d\d)/g)].flatMap(([, from = '', to = '']) => [from, to].map(secondsOf)),
  );
  expect(spans).toHaveLength(2);
  const [first = [], second = []] = spans;
  const [starts, ends] = [
    [Math.min(...first), Math.min(...second)],
    [Math.max(...first), Math.max(...second)],
  ];
  const clip = await madeClip(page, {
    seconds: Math.max(...ends) + 10,
    rate: 5,
    width: 96,
    height: 54,
    bars: [],
  });
  const file = { name: 'b.webm', mimeType: 'video/webm', buffer: clip };
  const fields = page.locator('.pair input[type="file"]');

  await test.step('one file is missing: the other plays, and the page says which to open', async () => {
    await fields.nth(0).setInputFiles(file);
    await expect.poll(() => shown(page, 0)).toBeGreaterThanOrEqual((starts[0] ?? 0) - 0.3);
    expect(await shown(page, 0)).toBeLessThan((starts[0] ?? 0) + 1.3);
    await expect(page.getByText(/^Open the recording of case /)).toHaveCount(1);
    await expect(page.getByRole('button', { name: 'Play together' })).toHaveCount(0);
  });

  await test.step('both step by moments, each at its own place', async () => {
    await fields.nth(1).setInputFiles(file);
    await expect.poll(() => shown(page, 1)).toBeGreaterThanOrEqual((starts[1] ?? 0) - 0.3);
    await page.getByRole('radio', { name: 'end', exact: true }).check();
    for (const nth of [0, 1]) {
      await expect.poll(() => shown(page, nth)).toBeGreaterThanOrEqual((ends[nth] ?? 0) - 0.3);
      expect(await shown(page, nth)).toBeLessThan((ends[nth] ?? 0) + 1.3);
    }
    await page.getByRole('radio', { name: 'start', exact: true }).check();
    for (const nth of [0, 1]) await expect.poll(() => shown(page, nth)).toBeLessThan((starts[nth] ?? 0) + 1.3);
  });

  await test.step('in step only on wish', async () => {
    const stands = await shown(page, 1);
    await page.getByRole('button', { name: 'Play', exact: true }).first().click();
    await expect.poll(() => shown(page, 0)).toBeGreaterThan((starts[0] ?? 0) + 1.5);
    expect(await shown(page, 1)).toBe(stands);
    await page.getByRole('button', { name: 'Pause', exact: true }).click();
    await page.getByRole('radio', { name: 'end', exact: true }).check();
    await page.getByRole('radio', { name: 'start', exact: true }).check();
    await page.getByRole('button', { name: 'Play together' }).click();
    for (const nth of [0, 1]) await expect.poll(() => shown(page, nth)).toBeGreaterThan((starts[nth] ?? 0) + 1);
    await page.getByRole('button', { name: 'Pause both' }).click();
  });

  await test.step('a reference recording on one side, with consent', async () => {
    const side = page.locator('.pair > section').nth(1);
    await side.getByText('A reference recording in its place').click();
    await expect(side.getByRole('button', { name: 'Open a reference recording here' })).toBeDisabled();
    await side.getByRole('checkbox').check();
    await side.getByRole('button', { name: 'Open a reference recording here' }).click();
    await expect(side.getByRole('heading', { name: 'A reference recording' })).toBeVisible();
    await side.locator('input[type="file"]').setInputFiles(file);
    await expect(side.getByRole('button', { name: /^Mark “start” here/ })).toBeVisible();
  });

  await test.step('the note', async () => {
    await page.locator('textarea[name="saw"]').fill('The flap was taken again twice before the difference shows.');
    await page.getByRole('button', { name: 'Keep the note' }).click();
    await expect(page.getByText('The note is kept, with both codes.')).toBeVisible();
    const { reflections, cases } = await everythingOf(app);
    const note = reflections.find(({ saw }) => saw.endsWith('before the difference shows.'));
    expect(note?.caseIds).toHaveLength(2);
    await open(page, '/reflect');
    for (const id of note?.caseIds ?? [])
      await expect(page.locator('main')).toContainText(cases.find((one) => one.id === id)?.code ?? 'no code');
  });
});
