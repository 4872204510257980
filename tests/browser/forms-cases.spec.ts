import type { Page } from 'playwright/test';
import type { App } from './app';
import { expect, test } from './fixture';
import { formsOf, press, sentForms, takenAsOwn, unfold } from './forms';
import { everythingOf, startWith } from './records';

test.use({ javaScriptEnabled: false });
test.beforeAll(({ app }) => startWith(app, 'fellow'));

const caseOf = async (app: App, code: string) => {
  const found = (await everythingOf(app)).cases.find((each) => each.code === code);
  if (!found) throw new Error(`no case ${code}`);
  return found;
};

async function openCase(page: Page, code: string): Promise<void> {
  await page.goto(`/cases?code=${code}`);
  await page.getByRole('link', { name: code, exact: true }).click();
  await expect(page.getByRole('heading', { name: `Case ${code}` })).toBeVisible();
}

test('every form of Cases works without scripts', async ({ page, context, app }) => {
  test.setTimeout(150_000);
  const sent = sentForms(context);

  await test.step('find a case', async () => {
    await page.goto('/cases');
    await page.locator('select[name="show"]').selectOption('not-answered');
    await press(page, 'Show');
    await expect(page.getByText(/^\d+ of 171 cases\. Show all$/)).toBeVisible();
    await page.getByRole('link', { name: 'F138', exact: true }).click();
    await expect(page.getByText('Not answered.')).toBeVisible();
  });

  await test.step('events: none, one, its review, a mistake', async () => {
    await press(page, 'There was no event');
    await expect(page.getByText('The answer about events is stored.')).toBeVisible();
    expect((await caseOf(app, 'F138')).events).toEqual([]);
    await unfold(page, 'Write an event down');
    await press(page, 'Write it down');
    await expect(page.getByRole('alert')).toBeVisible();
    await page.locator('select[name="kind"]').selectOption('iris-prolapse');
    await page.locator('select[name="eventStep"]').selectOption('main-incision');
    await page.locator('select[name="weight"]').selectOption('serious');
    await page.locator('select[name="noticed"]').selectOption('during');
    await press(page, 'Write it down');
    await expect(page.getByText('Waiting for your review')).toBeVisible();
    await page.locator('textarea[name="review-0"]').fill('A longer tunnel; watched with a senior colleague.');
    await press(page, 'Store the review');
    await expect(page.getByText('Your review of the event is stored.')).toBeVisible();
    expect((await caseOf(app, 'F138')).events).toMatchObject([
      { kind: 'iris-prolapse', stepId: 'main-incision', serious: true, reviewed: { text: /longer tunnel/ } },
    ]);
    await press(page, 'This was a mistake: remove it (kept in the history)');
    expect((await caseOf(app, 'F138')).events).toBeNull();
  });

  await test.step('facts, hands, protected parts, times', async () => {
    await openCase(page, 'F150');
    await unfold(page, 'Change the facts');
    await page.locator('select[name="fact-nucleus"]').selectOption('white');
    await press(page, 'Store the facts');
    await expect(page.getByText('The facts of this eye are stored.')).toBeVisible();
    await unfold(page, 'Change whose hands, step by step');
    await page.locator('select[name="hand-side-port"]').selectOption('someone-else');
    await press(page, 'Store whose hands');
    await expect(page.getByText('Who did which step is stored.')).toBeVisible();
    await press(page, 'Undo this change');
    await expect(page.getByText('The last change is undone; both are in the history.')).toBeVisible();
    expect((await caseOf(app, 'F150')).hands.steps).toEqual({});
    // Undone in its turn: the hands are as they were stored.
    await press(page, 'Undo this change');
    expect((await caseOf(app, 'F150')).hands.steps).toEqual({ 'side-port': 'someone-else' });
    await unfold(page, 'Change what was seen');
    await page.locator('select[name="seen-lens-identity"]').selectOption('no');
    await press(page, 'Store what was seen');
    await expect(page.getByText('The protected parts are stored.')).toBeVisible();
    await unfold(page, 'Change the times');
    const from = Number(await page.locator('input[name="stretch-0-from"]').inputValue());
    await page.locator('input[name="stretch-0-to"]').fill('1:75');
    await press(page, 'Store the times');
    await expect(page.getByRole('alert')).toContainText('1:75');
    await page.locator('input[name="stretch-0-to"]').fill(String(from + 21.5));
    await press(page, 'Store the times');
    await expect(page.getByText('The times are stored; the earlier ones are in the history.')).toBeVisible();
    const one = await caseOf(app, 'F150');
    expect(one).toMatchObject({
      facts: { nucleus: 'white' },
      hands: { steps: { 'side-port': 'someone-else' } },
      protectedSeen: { 'lens-identity': false },
    });
    expect(one.stretches[0]?.seconds).toBeCloseTo(21.5, 3);
    expect(one.history).toHaveLength(6);
  });

  await test.step('leave out, keep as it is, erase', async () => {
    await openCase(page, 'F020');
    await unfold(page, 'Leave this case out');
    await page.locator('select[name="reason"]').selectOption('recording-incomplete');
    await press(page, 'Leave it out');
    await expect(page.getByText('The case is left out; it stays in the record.')).toBeVisible();
    await press(page, 'Undo this change');
    await expect(page.getByText('The last change is undone; both are in the history.')).toBeVisible();
    expect((await caseOf(app, 'F020')).leftOut).toBeNull();
    await unfold(page, 'Leave this case out');
    await page.locator('select[name="reason"]').selectOption('recording-incomplete');
    await press(page, 'Leave it out');
    await press(page, 'Count this case again');
    await expect(page.getByText('The case counts again.')).toBeVisible();
    await unfold(page, 'Keep as it is');
    await page.locator('input[name="why"]').fill('inquiry');
    await press(page, 'Keep this case as it is');
    await expect(page.getByText('Nothing in it can be changed until you lift this.')).toBeVisible();
    await unfold(page, 'Lift');
    await page.locator('input[name="why"]').fill('closed');
    await press(page, 'Lift it');
    await expect(page.getByText('The case can be changed again.')).toBeVisible();
    await openCase(page, 'F151');
    await unfold(page, 'Erase this case everywhere');
    await page.locator('input[name="confirm"]').fill('F150');
    await press(page, 'Erase it everywhere');
    await expect(page.getByRole('alert')).toContainText('Nothing was erased.');
    await page.locator('input[name="confirm"]').fill('F151');
    await press(page, 'Erase it everywhere');
    await expect(page.getByText('The case was erased everywhere')).toBeVisible();
    await expect(caseOf(app, 'F151')).rejects.toThrow('no case F151');
  });

  await test.step('type a case in', async () => {
    await page.goto('/cases/new');
    await press(page, 'Continue to the times');
    await expect(page.getByRole('alert')).toBeVisible();
    await page.locator('input[name="code"]').fill('T1');
    await page.locator('select[name="fact-nucleus"]').selectOption('medium');
    await page.locator('input[name="hands"][value="mine"]').check();
    await page.locator('input[name="events"][value="none"]').check();
    await press(page, 'Continue to the times');
    await expect(page.getByRole('heading', { name: 'Times of T1' })).toBeVisible();
    await page.getByLabel('Capsulorhexis', { exact: true }).fill('1m23s');
    await press(page, 'Store the case');
    await expect(page.getByText('The case is in the record.')).toBeVisible();
    expect((await caseOf(app, 'T1')).stretches).toMatchObject([{ stepId: 'capsulorhexis', seconds: 83 }]);
  });

  await test.step('enter a list, and an event of an operation that was not timed', async () => {
    await page.goto('/cases/lists/new');
    await page.locator('input[name="when"]').fill('2026-11-24');
    await page.locator('input[name="count"]').fill('2');
    await page.locator('input[name="first"]').fill('T08');
    await press(page, 'Make the list');
    await expect(page.getByText('The list is ready.')).toBeVisible();
    const [first, second] = [await caseOf(app, 'T08'), await caseOf(app, 'T09')];
    for (const { id } of [first, second]) {
      await page.locator(`label:has(input[name="${id}.fact-nucleus"][value="soft"])`).click();
      await page.locator(`input[name="${id}.fact-more"]`).fill('0');
    }
    await page.getByLabel('All the others: all mine').check();
    await page.getByLabel('All the others: no event').check();
    await page.locator('input[name="operated"]').fill('5');
    await unfold(page, 'An event in an operation that was not timed');
    await page.locator('select[name="kind"]').selectOption('wound-leak');
    await page.locator('select[name="weight"]').selectOption('serious');
    await page.locator('select[name="noticed"]').selectOption('later');
    await press(page, 'Store the list');
    await expect(page.getByText('The list is stored.')).toBeVisible();
    await press(page, 'Undo this change (2 cases)');
    expect(await caseOf(app, 'T09')).toMatchObject({ facts: {}, events: null });
    await press(page, 'Undo this change (2 cases)');
    expect(await caseOf(app, 'T09')).toMatchObject({
      facts: { nucleus: 'soft' },
      hands: { whole: 'mine' },
      events: [],
    });
    await page.locator('textarea[name="review-0"]').fill('Hydrate again and wait.');
    await press(page, 'Store the review');
    await expect(page.getByText('Your review of the event is stored.')).toBeVisible();
    await press(page, 'This was a mistake: remove it');
    await expect(page.getByText('The event was removed.')).toBeVisible();

    await page.getByRole('link', { name: 'Type in times' }).click();
    await page.getByLabel('Capsulorhexis', { exact: true }).check();
    await page.getByLabel('Cortex aspiration', { exact: true }).check();
    await press(page, 'To the grid');
    await page.getByLabel('Capsulorhexis, T08').fill('123');
    await page.getByLabel('Cortex aspiration, T09').fill('1:75');
    // Another step beside these, and one taken away in which something was typed: nothing typed goes.
    await page.getByLabel('Hydrodissection', { exact: true }).check();
    await page.getByLabel('Cortex aspiration', { exact: true }).uncheck();
    await press(page, 'Show these steps');
    await expect(page.getByLabel('Hydrodissection, T08')).toHaveValue('');
    await expect(page.getByLabel('Capsulorhexis, T08')).toHaveValue('123');
    await expect(page.getByLabel('Cortex aspiration, T09')).toHaveValue('1:75');
    await press(page, 'Store the times');
    await expect(page.getByRole('alert')).toContainText('Say once what 123 and 1.23 mean');
    await expect(page.getByRole('alert')).toContainText('T09, Cortex aspiration: 1:75');
    await expect(page.getByLabel('Capsulorhexis, T08')).toHaveValue('123');
    expect(await caseOf(app, 'T08')).toMatchObject({ stretches: [] });
    await page.locator('input[name="figures"][value="clock"]').check();
    await page.getByLabel('Cortex aspiration, T09').fill('2.05');
    await press(page, 'Store the times');
    await expect(page.getByText('The times are stored.')).toBeVisible();
    expect(await caseOf(app, 'T08')).toMatchObject({
      stretches: [{ stepId: 'capsulorhexis', seconds: 83, start: null }],
      source: { kind: 'by-hand' },
    });
    expect(await caseOf(app, 'T09')).toMatchObject({ stretches: [{ stepId: 'cortex-aspiration', seconds: 125 }] });
  });

  await test.step('bring in cells, look again, take, take back; put a file away', async () => {
    await page.goto('/cases/bring-in');
    await press(page, 'Look at the cells');
    await expect(page.getByRole('alert')).toContainText('There are no cells here yet.');
    await page
      .locator('textarea[name="cells"]')
      .fill('case_id\tcapsulorhexis\thydrodissection\nB1\t1.23\t34\nB2\t1.31\t0\n');
    await press(page, 'Look at the cells');
    await expect(page.getByText('What is 1.23?')).toBeVisible();
    await page.locator('input[name="plain-number"][value="minutes-seconds"]').check();
    // In a record with own cases nobody's times are own by default.
    await expect(page.locator('input[name="whose"]:checked')).toHaveCount(0);
    await expect(page.getByRole('button', { name: /^Take / })).toHaveCount(0);
    await takenAsOwn(page);
    await press(page, /^Take /);
    await expect(page.getByText('2 cases were taken')).toBeVisible();
    expect((await caseOf(app, 'B1')).stretches[0]?.seconds).toBe(83);
    await press(page, 'Undo: take the whole import back');
    await expect(page.getByText('The whole import was taken back.')).toBeVisible();
    await expect(caseOf(app, 'B1')).rejects.toThrow('no case B1');
    await page.goto('/cases/bring-in');
    const buffer = Buffer.from('case_id,step,seconds\nB3,Rhexis,80');
    await page.locator('input[type="file"]').setInputFiles({ name: 'one.csv', mimeType: 'text/csv', buffer });
    await press(page, 'Look at what you chose');
    await press(page, 'Discard this file; nothing is stored');
    await expect(page.getByRole('heading', { name: 'Bring in times' })).toBeVisible();

    // One that is left stands under Cases, without the names in it, and can be put away there.
    const named = Buffer.from('case_id,Patient name,Surgeon,rhexis\nB4,Huber,Dr Anna Kowalska,80\nB5,Mayer,me,70');
    await page.locator('input[type="file"]').setInputFiles({ name: 'two.csv', mimeType: 'text/csv', buffer: named });
    await press(page, 'Look at what you chose');
    await expect(page.locator('main')).toContainText('Taken out before this file was kept for you to look at: everything under "Patient name".'); // prettier-ignore
    await expect(page.locator('main')).toContainText('Who is "Dr Anna Kowalska" (surgeon 1 in the rows)?');
    await page.goto('/cases');
    await expect(page.locator('#waiting')).toContainText(
      /two\.csv: looked at, not taken\. Unless you look again or take\s+it, it is deleted at \d\d:\d\d/,
    );
    await press(page, 'Put away two.csv');
    await expect(page.getByText('The file was put away; nothing of it is kept.')).toBeVisible();
    await expect(page.locator('#waiting')).toHaveCount(0);
  });

  await test.step('show the times of the running window, which is noted', async () => {
    await page.goto('/cases');
    await press(page, /^Show them; the result still comes at twenty/);
    await expect(page.getByText('That was noted; the result still comes at twenty.')).toBeVisible();
    expect((await everythingOf(app)).goals.map(({ timesShown }) => timesShown.length)).toEqual([0, 1]);
  });

  await test.step('choose the list sheet', async () => {
    await page.goto('/cases/list-sheet');
    await page.locator('select[name="rows"]').selectOption('40');
    await press(page, 'Show');
    await expect(page.locator('main tbody tr')).toHaveCount(40);
  });

  await test.step('the place of a case, and a case moved to another list', async () => {
    const { lists, cases } = await everythingOf(app);
    const list = lists.find(({ id }) => cases.filter(({ listId }) => listId === id).length > 2);
    const [first, second] = cases.filter(({ listId }) => listId === list?.id);
    await page.goto(`/cases/${first?.id}`);
    await unfold(page, 'Change its list, or keep which eye and a remark');
    await page.locator('form[action="?/place"] input[name="position"]').fill('first');
    await press(page, 'Store this');
    await expect(page.getByRole('alert')).toBeVisible();
    await page.locator('form[action="?/place"] input[name="position"]').fill('9');
    await press(page, 'Store this');
    await expect(page.getByText('List, place, eye and remark are stored.')).toBeVisible();
    await page.goto(`/cases/lists/${list?.id}`);
    await unfold(page, 'Move cases to another list');
    await page.locator(`input[name="move"][value="${second?.id}"]`).check();
    await page.locator('#move summary', { hasText: 'A new list' }).click();
    await page.locator('#move input[name="newListWhen"]').fill('14 March 2026');
    await press(page, 'Move them');
    await expect(page.getByText('The cases are moved to another list.')).toBeVisible();
    await expect(page.getByRole('link', { name: 'See 14 March 2026' })).toHaveAttribute('href', /lists\/list-\d+$/);
    await expect(page.getByRole('status').getByRole('link')).toHaveCount(2);
    expect((await everythingOf(app)).cases.find(({ id }) => id === second?.id)?.listId).not.toBe(list?.id);
  });

  // These have tests of their own: the plan of what to time, timing a recording (which needs scripts), and what is forgotten
  // of a file (bring-in.spec, without scripts too) or of a workbook (which only scripts read).
  const elsewhere = ['/cases/timing-plan', '/cases/time', '/cases/bring-in/[] forget', '/cases/bring-in forgetSheets'];
  expect([...sent].sort()).toEqual(formsOf(['/cases'], elsewhere));
});
