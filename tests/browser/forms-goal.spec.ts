import { expect, test } from './fixture';
import { formsOf, press, sentForms, takenAsOwn, unfold } from './forms';
import { everythingOf, startWith } from './records';

test.use({ javaScriptEnabled: false });
test.beforeAll(({ app }) => startWith(app, 'fellow'));

test('every form of a goal works without scripts', async ({ page, context, app }) => {
  test.setTimeout(300_000);
  const sent = sentForms(context);

  await test.step('another view of Choose', async () => {
    await page.goto('/choose');
    await page.locator('input[name="view"][value="seconds"]').check();
    await press(page, 'Show this view');
    await expect(page).toHaveURL(/view=seconds/);
    await expect(page.getByRole('heading', { name: 'Nucleus removal holds the most seconds.' })).toBeVisible();
  });

  await test.step('the note in larger type', async () => {
    await page.goto('/before-a-list');
    await press(page, 'Larger type');
    await expect(page.getByRole('button', { name: 'Smaller type' })).toBeVisible();
  });

  await test.step('a checkpoint of one’s own: no time in it', async () => {
    await page.goto('/checkpoints');
    await page.locator('input[name="q"]').fill('regrasp');
    await press(page, 'Show');
    await expect(page.getByText(/lines contain "regrasp"/)).toBeVisible();
    await page.goto('/checkpoints/phaco/capsulorhexis');
    await page.locator('input[name="look"]').fill('The flap is flat within 20 s');
    await press(page, 'Add');
    await expect(page.getByText('20 s', { exact: false }).first()).toBeVisible();
    await page.locator('input[name="look"]').fill('The flap lies flat before each regrasp');
    await page.locator('textarea[name="text"]').fill('With **both** hands <script>alert(1)</script>');
    await press(page, 'Add');
    await expect(page.getByText('Your checkpoint is stored with your record.')).toBeVisible();
    const own = page.getByRole('region', { name: 'My own checkpoints' }).locator('article');
    await expect(own.locator('strong', { hasText: 'both' })).toBeVisible();
    await expect(own.locator('script')).toHaveCount(0);
    await press(page, /^Remove ?: The flap lies flat/);
    await expect(page.getByText('Your checkpoint is removed.')).toBeVisible();
  });

  await test.step('a rehearsal said aloud', async () => {
    await page.goto('/checkpoints/rehearsals/rupture');
    await press(page, 'We have said it aloud');
    await expect(page.getByText(/^Last said aloud: /)).toBeVisible();
  });

  await test.step('a note: draft, preview, store, change, find', async () => {
    await page.goto('/reflect');
    await press(page, 'Write about these');
    await page.locator('textarea[name="saw"]').fill('The strip came in *one* piece.');
    await press(page, 'Keep as draft');
    await expect(page.getByText('Draft kept.')).toBeVisible();
    await page.goto('/reflect');
    await page.getByRole('link', { name: 'Go on with your draft' }).click();
    await expect(page.locator('textarea[name="saw"]')).toHaveValue('The strip came in *one* piece.');
    const partly = page.locator('input[name^="answer:"][value="partly"]').first();
    await partly.check();
    await press(page, 'Preview');
    await expect(page.locator('main em', { hasText: 'one' })).toBeVisible();
    await page.locator('input[name="tags"]').fill('strip, 3 May');
    await press(page, 'Store');
    await expect(page.getByRole('alert')).toContainText('"3 May" looks like a date');
    await expect(partly).toBeChecked();
    await page.locator('input[name="nobody"]').check();
    await press(page, 'Store');
    await expect(page.getByText('Your note is stored.')).toBeVisible();
    await page.getByRole('link', { name: 'Cortex aspiration' }).first().click();
    await page.locator('textarea[name="saw"]').fill('The strip came in **two** pieces.');
    await press(page, 'Preview');
    await expect(page.locator('main strong', { hasText: 'two' })).toBeVisible();
    await press(page, 'Keep as draft');
    await page.goto(page.url().replace(/\?.*/, ''));
    await expect(page.locator('textarea[name="saw"]')).toHaveValue('The strip came in *one* piece.');
    await page.getByRole('link', { name: 'Go on with the change you began' }).click();
    await expect(page.locator('textarea[name="saw"]')).toHaveValue('The strip came in **two** pieces.');
    await page.locator('textarea[name="saw"]').fill('The strip came in two pieces.');
    await page.locator('input[name="tags"]').fill('strip');
    await press(page, 'Store the change');
    await expect(page.getByText('Your change is stored; the earlier text is kept below.')).toBeVisible();
    const notes = async () => (await everythingOf(app)).reflections.length;
    const before = await notes();
    await unfold(page, 'Delete this note');
    await press(page, 'Delete this note');
    await expect.poll(notes).toBe(before - 1);
    await press(page, 'Put it back');
    await expect.poll(notes).toBe(before);
    await page.goto('/reflect');
    await page.locator('input[name="word"]').fill('two pieces');
    await press(page, 'Search');
    await expect(page.locator('main article')).toHaveCount(1);
    await page.locator('input[name="word"]').fill('zebra');
    await press(page, 'Search');
    await expect(page.getByText('No note contains "zebra".')).toBeVisible();
  });

  await test.step('a goal for a reason from outside the record, agreed later', async () => {
    await page.goto('/plan');
    await press(page, 'To the plan');
    await expect(page.getByRole('alert')).toContainText('Choose the step.');
    await page.locator('select[name="step"]').selectOption('iol-insertion');
    await page.locator('input[name="reason"]').fill('A new injector in the unit');
    await page.locator('input[name="before"]').check();
    await press(page, 'To the plan');
    await press(page, 'Set the goal');
    await expect(page.getByRole('alert')).toContainText('Say whether this is agreed with your supervisor.');
    await page.locator('input[name="agreed"][value="not-yet"]').check();
    await press(page, 'Set the goal');
    await expect(page.getByText('The goal is set, and its terms are fixed.')).toBeVisible();
    await press(page, 'It is agreed now');
    await expect(page.getByText('Agreed: the window begins with the next new list.')).toBeVisible();
  });

  await test.step('a draft put away', async () => {
    await page.goto('/plan?step=hydrodissection');
    await page.locator('input[name="agreed"][value="not-yet"]').check();
    await press(page, 'Set the goal');
    await press(page, 'Discard the draft');
    await expect(page.getByRole('heading', { name: 'Suggested: capsulorhexis.', exact: true })).toBeVisible();
    const { goals } = await everythingOf(app);
    expect(goals.map(({ stepId, state }) => [stepId, state])).toEqual([
      ['capsulorhexis', 'closed'],
      ['cortex-aspiration', 'running'],
      ['iol-insertion', 'running'],
      ['hydrodissection', 'closed'],
    ]);
  });

  await test.step('a serious event in the window, its review on After twenty', async () => {
    await page.goto('/cases?code=F170');
    await page.getByRole('link', { name: 'F170', exact: true }).click();
    await unfold(page, 'Write an event down');
    await page.locator('select[name="kind"]').selectOption('posterior-capsule-tear');
    await page.locator('select[name="eventStep"]').selectOption('cortex-aspiration');
    await page.locator('select[name="weight"]').selectOption('serious');
    await page.locator('select[name="noticed"]').selectOption('during');
    await press(page, 'Write it down');
    await page.goto('/');
    await expect(page.getByText('Safety first: a serious event waits for your review')).toBeVisible();
    await page.goto('/after-twenty/goal-2');
    await press(page, 'Store the review');
    await expect(page.getByRole('alert')).toBeVisible();
    await page
      .locator('textarea[name^="review-"]')
      .fill('Lower vacuum near the equator; seen with a senior colleague.');
    await press(page, 'Store the review');
    await expect(page.getByText('Your review of the event is stored.')).toBeVisible();
  });

  await test.step('a review with a mentor: one half, then the other, then side by side', async () => {
    await page.goto('/after-twenty/goal-2');
    await page.getByRole('link', { name: 'Review it with a mentor' }).click();
    await press(page, 'Begin a review with these');
    await expect(page.getByText('The stretches are fixed.')).toBeVisible();
    await press(page, 'Store my half');
    await expect(page.getByRole('alert')).toContainText('Rate at least one checkpoint.');
    const half = page.locator('form', { has: page.locator('textarea[name="saw"]') });
    const rate = (place: number, label: string) =>
      half.locator('fieldset').nth(place).getByRole('radio', { name: label }).check();
    await rate(0, 'seen each time');
    await rate(1, 'seen each time');
    await page.locator('textarea[name="saw"]').fill('The strip came away in one piece.');
    await press(page, 'Store my half');
    await expect(page.getByRole('heading', { name: 'Now the mentor’s half.' })).toBeVisible();
    await expect(page.getByText('The strip came away in one piece.')).toHaveCount(0);
    await expect(half.getByRole('radio', { name: 'not rated', checked: true })).toHaveCount(3);
    await rate(0, 'seen each time');
    await rate(1, 'seen with correction');
    await press(page, 'Store the mentor’s half');
    const words = page.locator('main dd');
    await expect(words).toHaveText([
      'Both: seen each time.',
      'You: seen each time; mentor: seen with correction; watch again.',
      'Both: not rated.',
    ]);
    await page.getByRole('link', { name: 'Correct your half' }).click();
    await expect(page.locator('textarea[name="saw"]')).toHaveValue('The strip came away in one piece.');
    await rate(1, 'seen with correction');
    await press(page, 'Store my half');
    await expect(words.nth(1)).toHaveText('Both: seen with correction.');
    await expect(page.getByText('A half was typed again after both had been seen.')).toBeVisible();
  });

  await test.step('show the times, pause, go on', async () => {
    await page.goto('/after-twenty/goal-2');
    await press(page, /^Show them; the result still comes at twenty/);
    await expect(page.getByText('that you asked is noted')).toBeVisible();
    await page.locator('input[name="decision"][value="pause"]').check();
    await page.locator('input[name="reason"]').fill('First the review of the event');
    await press(page, 'Store the decision');
    await expect(page.getByText('This goal is paused.')).toBeVisible();
    await page.locator('input[name="decision"][value="resume"]').check();
    await page.locator('input[name="reason"]').fill('Reviewed and agreed');
    await press(page, 'Store the decision');
    await expect(page.getByText('This goal is paused.')).toHaveCount(0);
    expect((await everythingOf(app)).goals[1]).toMatchObject({
      state: 'running',
      decisions: [{ kind: 'pause' }, { kind: 'resume' }],
    });
  });

  await test.step('a report of a month, of a goal, with a note', async () => {
    await page.goto('/report');
    const month = page.locator('optgroup[label="A month"] option').first();
    await page.locator('select[name="of"]').selectOption((await month.getAttribute('value')) ?? '');
    await press(page, 'Show');
    await expect(page).toHaveURL(/of=2026-\d\d/);
    await expect(page.getByRole('heading', { name: 'One month' })).toBeVisible();
    await page.goto('/report?of=goal-1');
    await page.locator('input[name="note"]').first().check();
    await press(page, 'Include the ticked notes');
    await expect(page.getByRole('heading', { name: 'From my notes' })).toBeVisible();
  });

  await test.step('the result, once its window is full', async () => {
    const rows = Array.from(
      { length: 7 },
      (_, at) => `F9${at},${new Date().toISOString().slice(0, 10)},none,80,30,40,60`,
    );
    await page.goto('/cases/bring-in');
    await page
      .locator('textarea[name="cells"]')
      .fill(['case_id,date,event,capsulorhexis,hydrodissection,main incision,cortex aspiration', ...rows].join('\n'));
    await press(page, 'Look at the cells');
    await takenAsOwn(page);
    await press(page, 'Take 7 cases');
    await expect(page.getByText('7 cases were taken')).toBeVisible();
    await page.goto('/after-twenty/goal-2');
    await press(page, 'Read the result');
    await expect(page.getByText('The result is stored, and will be shown unchanged from now on.')).toBeVisible();
    expect((await everythingOf(app)).results.map(({ goalId }) => goalId)).toContain('goal-2');
  });

  await test.step('whether it lasted, where it was not read yet', async () => {
    await app.changeFile('results.json', (results) => {
      for (const result of (results as { records: { lasted?: unknown }[] }).records) delete result.lasted;
    });
    await page.goto('/after-twenty/goal-1');
    await press(page, 'Read whether it lasted');
    await expect(page.getByRole('button', { name: 'Read whether it lasted' })).toHaveCount(0);
    const read = (await everythingOf(app)).results.find(({ goalId }) => goalId === 'goal-1');
    expect(read?.lasted?.length).toBeGreaterThan(0);
  });

  const rooms = ['/plan', '/after-twenty', '/before-a-list', '/reflect', '/checkpoints'];
  expect([...sent].filter((form) => !form.startsWith('/cases')).sort()).toEqual(formsOf(rooms));
});
