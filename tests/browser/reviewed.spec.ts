import { expect, test } from './fixture';
import { press } from './forms';
import { everythingOf, startWith } from './records';

const FILE = [
  'case_id,procedure,list,date,position,case_hands,event,event_step,event_serious,event_near_miss,event_noticed,event_reviewed_at,event_review,capsulorhexis_s',
  'R1,phaco,1,2026-03,1,mine,iris-prolapse,,yes,no,during,2026-03,,80',
  'R2,phaco,1,2026-03,2,mine,iris-prolapse,,yes,no,during,,,75',
].join('\n');

test.use({ javaScriptEnabled: false });
test.beforeAll(({ app }) => startWith(app, 'empty'));

test('an event that was reviewed elsewhere comes in as reviewed, without its text', async ({ page, app }) => {
  await page.goto('/cases/bring-in');
  await page.locator('textarea[name="cells"]').fill(FILE);
  await press(page, 'Look at the cells');
  await expect(page.locator('main')).toContainText('1 event was reviewed where this file comes from');
  await press(page, 'Take 2 cases');
  await expect(page.getByText('2 cases were taken.')).toBeVisible();

  const { cases } = await everythingOf(app);
  const of = (code: string) => cases.find((one) => one.code === code)?.id;
  await page.goto(`/cases/${of('R1')}`);
  await expect(page.locator('main')).toContainText('Reviewed in March 2026; its text was not in the file.');
  await expect(page.getByText('Waiting for your review')).toHaveCount(0);
  // Its words can be written here, and only once.
  await page.getByLabel('What you will do, if you want it here too').fill('Asked Dr Smith to watch with me.');
  await press(page, 'Store the review');
  await expect(page.locator('main')).toContainText('looks like a name');
  await page.getByLabel('What you will do, if you want it here too').fill('A longer tunnel, watched together.');
  await press(page, 'Store the review');
  await expect(page.locator('main')).toContainText('A longer tunnel, watched together.');
  await expect(page.getByRole('button', { name: 'Store the review' })).toHaveCount(0);
  await page.goto(`/cases/${of('R2')}`);
  await expect(page.getByText('Waiting for your review')).toBeVisible();
});
