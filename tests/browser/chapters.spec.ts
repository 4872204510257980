import { readFile } from 'node:fs/promises';
import { expect, test } from './fixture';
import { everythingOf, startWith } from './records';

test.describe('chapter marks of a case', () => {
  test.beforeAll(({ app }) => startWith(app, 'fellow'));

  test('go out for its recording, with no code and no date', async ({ page, app }) => {
    const { cases } = await everythingOf(app);
    const one = cases.find(({ stretches }) => stretches.some(({ start }) => start !== null));
    await page.goto(`/cases/${one?.id}`);
    const [file] = await Promise.all([
      page.waitForEvent('download'),
      page.getByRole('link', { name: 'Chapter marks for its recording (WebVTT)' }).click(),
    ]);
    expect(file.suggestedFilename()).toBe('chapters.vtt');
    const text = await readFile(await file.path(), 'utf8');
    expect(text).toMatch(/^WEBVTT\n\n\d\d:\d\d:\d\d\.\d{3} --> \d\d:\d\d:\d\d\.\d{3}\n/);
    expect(text.match(/ --> /g)).toHaveLength(
      one?.stretches.filter(({ start, end }) => start !== null && end !== null).length ?? 0,
    );
    expect(text).not.toContain(one?.code);
    expect(text).not.toMatch(/\d{4}-\d\d/);
  });

  test('stay in while the window of a running goal hides the times', async ({ page, app }) => {
    const { cases } = await everythingOf(app);
    const hidden = cases.at(-1)?.id;
    await page.goto(`/cases/${hidden}`);
    await expect(page.getByText('Hidden until the window is full and its cases are reviewed')).toBeVisible();
    await expect(page.getByRole('link', { name: /Chapter marks/ })).toHaveCount(0);
    expect((await page.request.get(`/cases/${hidden}/chapters.vtt`)).status()).toBe(403);
    expect((await page.request.get('/cases/case-99999/chapters.vtt')).status()).toBe(404);
  });
});
