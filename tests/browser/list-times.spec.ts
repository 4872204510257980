import { expect, test } from './fixture';
import { open } from './open';
import { everythingOf, post, startWith } from './records';

test.use({ hasTouch: true, viewport: { width: 360, height: 800 } });
test.beforeAll(({ app }) => startWith(app, 'empty'));

/** Ten steps are the most that anybody notes by hand. */
const STEPS = [
  'incision',
  'side-port',
  'ovd-fill',
  'main-incision',
  'capsulorhexis',
  'hydrodissection',
  'cortex-aspiration',
  'capsule-polish',
  'bag-refill',
  'wound-check',
];

test('times of 25 cases noted by hand: four phone screens, stored once, remembered for the next list', async ({
  page,
  app,
}) => {
  await open(page, '/');
  await page.getByRole('link', { name: 'Enter a list' }).tap();
  await expect(page.getByRole('heading', { name: 'Enter a list' })).toBeVisible();
  const fields = { procedure: 'phaco', when: '2026-11-24', label: '', count: '25', first: 'H01' };
  const list = (await post(app, '/cases/lists/new?/make', fields)).replace(/\?.*/, '');
  await open(page, `${list}/times?${STEPS.map((id) => `step=${id}`).join('&')}`);

  const inputs = page.locator('input[inputmode="decimal"]');
  await expect(inputs).toHaveCount(250);
  const [first, last] = [await inputs.first().boundingBox(), await inputs.last().boundingBox()];
  const heading = await page.locator('h1').boundingBox();
  expect((last?.y ?? 0) + (last?.height ?? 0) - (heading?.y ?? 0)).toBeLessThanOrEqual(4 * 800);
  expect(Math.min(first?.width ?? 0, first?.height ?? 0)).toBeGreaterThanOrEqual(24);
  await expect(page.getByRole('button', { name: 'Store the times' })).toBeInViewport();

  await page.getByLabel('Capsulorhexis, H01').fill('123');
  await page.getByLabel('Capsulorhexis, H02').fill('1.05');
  await page.getByRole('button', { name: 'Store the times' }).tap();
  await expect(page.getByRole('alert')).toContainText('Say once what 123 and 1.23 mean');
  await expect(page.getByRole('alert')).toContainText('H01: whose hands is not answered.');
  await expect(page.getByLabel('Capsulorhexis, H01')).toHaveValue('123');

  await page.getByLabel('1 min 23 s').check();
  await page.getByLabel(/All mine/).check();
  await page.getByLabel(/No event in any/).check();
  await page.getByRole('button', { name: 'Store the times' }).dblclick();
  await expect(page.getByText('The times are stored.')).toBeVisible();
  await expect(page.getByText('2 cases with times so far; a first look needs 20.')).toBeVisible();
  const { cases } = await everythingOf(app);
  expect(cases).toHaveLength(25);
  expect(cases.slice(0, 2).map(({ stretches }) => stretches.map(({ seconds }) => seconds))).toEqual([[83], [65]]);
  expect(cases.every(({ events }) => events?.length === 0)).toBe(true);
  expect(cases[0]).toMatchObject({ source: { kind: 'by-hand' }, hands: { whole: 'mine' } });
  expect(cases[0]?.history).toHaveLength(1);

  const next = await post(app, '/cases/lists/new?/make', { ...fields, when: '2026-11-25', count: '2', first: 'J01' });
  await open(page, `${next.replace(/\?.*/, '')}/times`);
  await expect(inputs).toHaveCount(20);
  await expect(page.getByLabel('1 min 23 s')).toBeChecked();
  await open(page, `${list}/times`);
  await expect(page.getByLabel('Capsulorhexis, H01')).toHaveValue('1:23');
});
