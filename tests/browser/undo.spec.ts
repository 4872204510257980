import type { Page } from 'playwright/test';
import { expect, test } from './fixture';
import { press, takenAsOwn, unfold } from './forms';
import { open } from './open';
import { everythingOf, startWith } from './records';

const UNDO = 'Undo this change';

for (const javaScriptEnabled of [true, false])
  test.describe(javaScriptEnabled ? 'undo with scripts' : 'undo without scripts', () => {
    test.use({ javaScriptEnabled });
    test.beforeAll(({ app }) => startWith(app, 'fellow'));

    const show = (page: Page, path: string) => (javaScriptEnabled ? open(page, path) : page.goto(path));

    const setNucleus = async (page: Page, value: string) => {
      await unfold(page, 'Change the facts');
      await page.locator('select[name="fact-nucleus"]').selectOption(value);
      await press(page, 'Store the facts');
      await expect(page.getByText('The facts of this eye are stored.')).toBeVisible();
    };

    test('a change of a case goes back, and forth again, and stays in the history', async ({ page, app, context }) => {
      const one = (await everythingOf(app)).cases.find(({ code }) => code === 'F020')!;
      const now = async () => (await everythingOf(app)).cases.find(({ id }) => id === one.id)!;
      const before = one.facts['nucleus'];
      const value = before === 'white' ? 'hard' : 'white';
      const history = page.locator('#history li');
      const undo = page.getByRole('button', { name: UNDO });

      await show(page, `/cases/${one.id}`);
      await expect(undo).toHaveCount(0);
      await setNucleus(page, value);
      await expect(page.getByRole('status').getByRole('button', { name: UNDO })).toBeVisible();
      await press(page, UNDO);
      await expect(page.getByText('The last change is undone; both are in the history.')).toBeVisible();
      expect((await now()).facts).toEqual(one.facts);
      // The times of this case are visible: neither change loses its mark.
      expect((await now()).factChanges).toMatchObject([{ after: value }, { before: value, after: before }]);
      await expect(page.locator('main')).toContainText('changed and put back on');
      await expect(history.last()).toContainText('Undone: Nucleus:');

      // Opened later, it stands by the history; a page that was open before a further change undoes nothing unseen.
      await show(page, `/cases/${one.id}`);
      const old = await context.newPage();
      await show(old, `/cases/${one.id}`);
      await expect(page.locator('#history').getByRole('button', { name: UNDO })).toBeVisible();
      await press(page, UNDO);
      await expect(history.last()).toContainText('Done again: Nucleus:');
      expect((await now()).facts['nucleus']).toBe(value);
      const third = before === 'medium' ? 'hard' : 'medium';
      await setNucleus(page, third);
      await press(old, UNDO);
      await expect(old.getByRole('alert')).toContainText('Nothing was undone.');
      expect((await now()).facts['nucleus']).toBe(third);
      await old.close();
    });

    test('times go back, and those taken back stay in the history', async ({ page, app }) => {
      const one = (await everythingOf(app)).cases.find(({ code }) => code === 'F021')!;
      await show(page, `/cases/${one.id}`);
      await unfold(page, 'Change the times');
      const from = Number(await page.locator('input[name="stretch-0-from"]').inputValue());
      await page.locator('input[name="stretch-0-to"]').fill(String(from + 987));
      await press(page, 'Store the times');
      await press(page, UNDO);
      await expect(page.locator('#history li').last()).toContainText(
        'Undone: Times changed (taken back: times, in seconds: ',
      );
      await expect(page.locator('#history li').last()).toContainText(`–${from + 987}`);
      expect((await everythingOf(app)).cases.find(({ id }) => id === one.id)?.stretches).toEqual(one.stretches);
    });

    test('times looked at while a case was left out count as seen from then on', async ({ page, app }) => {
      const { cases } = await everythingOf(app);
      // The last case of the window that runs: its times are hidden.
      const one = cases.toSorted((a, b) => a.sequence - b.sequence).at(-1)!;
      const leftOut = async () => (await everythingOf(app)).cases.find(({ id }) => id === one.id)!.leftOut;
      const leave = async () => {
        await unfold(page, 'Leave this case out');
        await page.locator('select[name="reason"]').selectOption('recording-incomplete');
        await press(page, 'Leave it out');
        await expect(page.getByRole('button', { name: 'Count this case again' })).toBeVisible();
      };
      await show(page, `/cases/${one.id}`);
      await expect(page.getByText('Change the times')).toHaveCount(0);
      await leave();
      expect(await leftOut()).toMatchObject({ timesSeen: false });
      await expect(page.getByText('Change the times')).toBeVisible();
      await press(page, 'Count this case again');
      await expect(page.getByText('Change the times')).toHaveCount(0);
      await leave();
      expect(await leftOut()).toMatchObject({ timesSeen: true });
      await expect(page.locator('#history li').last()).toContainText('(times had been seen)');
      await press(page, 'Count this case again');
    });

    test('what an import replaced is left to the undo of that import, and a kept case stays', async ({ page, app }) => {
      const one = (await everythingOf(app)).cases.find(({ code }) => code === 'F022')!;
      await show(page, '/cases/bring-in');
      await page.locator('textarea[name="cells"]').fill('case_id,capsulorhexis\nF022,1:51\n');
      await press(page, 'Look at the cells');
      await page.locator('select[name^="known:"]').selectOption('new');
      await takenAsOwn(page);
      await expect(page.locator('main')).not.toContainText('keeps its old values');
      await press(page, 'Fill in or replace 1 case of the record');
      await expect(page.getByText(/1 case of the record .* filled in or replaced\./)).toBeVisible();
      await show(page, `/cases/${one.id}`);
      await expect(page.locator('#history')).toContainText('It is taken back with its whole import, in Settings.');
      await expect(page.getByRole('button', { name: UNDO })).toHaveCount(0);

      await unfold(page, 'Keep as it is');
      await page.locator('input[name="why"]').fill('inquiry');
      await press(page, 'Keep this case as it is');
      await expect(page.locator('#history')).toContainText('The last of these cannot be undone. Case F022 is kept');
      await expect(page.getByRole('button', { name: UNDO })).toHaveCount(0);
    });
  });
