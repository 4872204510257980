import type { Page } from 'playwright/test';
import { expect, test } from './fixture';
import { everythingOf, startWith } from './records';

/** A corneal graft in nine steps: name, start, end. */
const STEPS = [
  ['Support ring', 'the first suture of the ring is placed', 'the ring is tied'],
  ['Donor button', 'the donor cornea lies on the block', 'the button is punched'],
  ['Host trephination', 'the trephine touches the cornea', 'the trephine leaves the cornea'],
  ['Host button', 'the blade enters the chamber', 'the host button is out'],
  ['Filling the chamber', 'the cannula enters', 'the cannula leaves'],
  ['Cardinal sutures', 'the donor button lies on the eye', 'the fourth suture is tied'],
  ['Remaining sutures', 'the next needle touches the donor', 'the last knot is tied'],
  ['Burying knots', 'the first knot is turned', 'the last knot is turned'],
  ['Watertight check', 'the wound is dried', 'the drape comes off'],
] as const;

/** Thirty grafts as a sheet with one row a stretch; no order of lists is needed to see the steps. */
const FILE = [
  'case_id,date,step,seconds',
  ...Array.from({ length: 30 }, (_, n) => n).flatMap((n) =>
    STEPS.map(
      ([label], step) =>
        `K${n + 1},2026-${n < 15 ? '03' : '04'}-${10 + (n % 15)},${label},${60 + 10 * step + ((7 * n) % 11)}`,
    ),
  ),
].join('\n');

const press = (page: Page, name: string) => page.getByRole('button', { name, exact: true }).click();
const order = (page: Page) => page.locator('#steps ol li > div:first-child > a:first-child').allInnerTexts();

test.describe('a procedure of one’s own, without scripts', () => {
  test.use({ javaScriptEnabled: false });
  test.beforeAll(({ app }) => startWith(app, 'empty'));

  test('is made, changed, brought in and shown, and never loses a timing', async ({ page, app }) => {
    await test.step('nine steps, three of them on rows asked for', async () => {
      await page.goto('/settings');
      await page.getByRole('link', { name: 'Change them, or add a procedure' }).click();
      await page.getByRole('link', { name: 'Add a procedure' }).click();
      await page.locator('#name').fill('Corneal graft');
      const fill = async (from: number, to: number) => {
        for (const [row, cells] of STEPS.entries())
          if (row >= from && row < to)
            for (const [column, name] of ['label', 'starts', 'ends'].entries())
              await page.locator(`#${name}-${row}`).fill(cells[column] ?? '');
      };
      await fill(0, 6);
      await press(page, 'Three more rows');
      await fill(6, 9);
      await page.locator('#ends-8').fill('');
      await press(page, 'Store the procedure');
      await expect(page.getByRole('alert')).toContainText('Watertight check, ends: say what is seen');
      await expect(page.getByRole('alert').getByRole('link')).toHaveAttribute('href', '#ends-8');
      await page.locator('#ends-8').fill(STEPS[8][2]);
      await press(page, 'Store the procedure');
      await expect(page.getByText('The procedure is stored.')).toBeVisible();
      expect(await order(page)).toEqual(STEPS.map(([label]) => label));
    });

    await test.step('a protected part, and two answers on one key refused', async () => {
      await page.getByRole('link', { name: 'Watertight check' }).click();
      await page.getByLabel('Not to be shortened').check();
      await page.locator('#newPart-0').fill('Wound dried and watched');
      await press(page, 'Store the step');
      await expect(page.getByText('not to shorten; protected part: wound dried and watched')).toBeVisible();
      await page.getByRole('link', { name: 'Add a fact' }).click();
      await page.locator('#label').fill('Vessels');
      await page.getByLabel('a choice').check();
      for (const [row, answer] of ['none', 'many'].entries()) {
        await page.locator(`#newAnswer-${row}`).fill(answer);
        await page.locator(`#newKey-${row}`).fill('1');
      }
      await press(page, 'Store the fact');
      await expect(page.getByRole('alert').getByRole('link')).toHaveAttribute('href', '#newKey-1');
      await page.locator('#newKey-1').fill('2');
      await press(page, 'Store the fact');
      await expect(page.getByText('1 none, 2 many; not entered yet')).toBeVisible();
    });

    await test.step('moved, and taken back', async () => {
      await page.getByRole('button', { name: /^Down\s+Support ring$/ }).click();
      await expect(page.getByText('Moved.', { exact: true })).toBeVisible();
      expect((await order(page)).slice(0, 2)).toEqual(['Donor button', 'Support ring']);
      await press(page, 'Undo');
      expect((await order(page)).slice(0, 2)).toEqual(['Support ring', 'Donor button']);
    });

    await test.step('brought in among the shipped procedures', async () => {
      await page.goto('/cases/bring-in');
      await page.getByLabel('Cells of a sheet, with their headings').fill(FILE);
      await press(page, 'Look at the cells');
      await expect(page.getByText(/Corneal graft: 30 cases, 9 steps/)).toBeVisible();
      await page.getByRole('button', { name: /^Take / }).click();
      await expect(page.getByText('30 cases were taken')).toBeVisible();
      await page.goto('/choose?procedure=corneal-graft');
      await expect(page.getByRole('link', { name: 'Remaining sutures' }).first()).toBeVisible();
    });

    await test.step('a step with timings is retired, never deleted', async () => {
      await page.goto('/settings/procedures/corneal-graft');
      await page.getByRole('button', { name: /^Retire\s+Burying knots$/ }).click();
      await expect(page.getByText('The step is retired: its timings stay')).toBeVisible();
      const { cases, procedures } = await everythingOf(app);
      const timed = cases.filter(({ stretches }) => stretches.some(({ stepId }) => stepId === 'burying-knots'));
      expect(timed).toHaveLength(30);
      expect(procedures[0]?.steps.find(({ id }) => id === 'burying-knots')?.retired).toBe(true);
      await expect(page.getByText('The record holds 30 cases of it, so it stays.')).toBeVisible();
    });
  });

  test('a shipped procedure is changed and put back to as shipped', async ({ page, app }) => {
    await page.goto('/settings/procedures/phaco/steps/capsulorhexis');
    await page.locator('#label').fill('Rhexis');
    await press(page, 'Store the step');
    await expect(page.getByRole('link', { name: 'Rhexis', exact: true })).toBeVisible();
    await press(page, 'Restore it as shipped');
    await expect(page.getByText('The procedure is as shipped again.')).toBeVisible();
    await expect(page.getByRole('link', { name: 'Capsulorhexis', exact: true })).toBeVisible();
    expect((await everythingOf(app)).procedures.map(({ id }) => id)).toEqual(['corneal-graft']);
  });
});

test('a timing plan and reminders work without scripts too', async ({ browser, app }) => {
  const context = await browser.newContext({ baseURL: app.origin, javaScriptEnabled: false });
  const page = await context.newPage();
  await page.goto('/cases/timing-plan');
  await press(page, 'Store the plan');
  await page.locator('#when').fill('2026-12-03');
  await page.locator('#operated').fill('9');
  await press(page, 'Show which to time');
  await expect(page.getByText(/^Time the cases in these places: \d, \d, \d\.$/)).toBeVisible();
  const said = await page.getByText('Time the cases in these places').innerText();
  await page.reload();
  await expect(page.getByText(said)).toBeVisible();
  const reminders = await page.request.get('/reminders.ics');
  expect(reminders.headers()['content-type']).toBe('text/calendar; charset=utf-8');
  expect(await reminders.text()).toMatch(/^BEGIN:VCALENDAR\r\n/);
  await context.close();
});
