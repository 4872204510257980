import { expect, test } from './fixture';
import { everythingOf, startWith } from './records';
import { pathOf, ROOMS } from './rooms';
import { says } from './says';
import { lookRound } from './surgeons';

test.beforeAll(({ app }) => startWith(app, 'empty'));

for (const surgeon of ['fellow', 'consultant', 'camp'] as const)
  test(`the ${surgeon}: ${surgeon === 'fellow' ? '' : 'something in every room, and '}one action takes it all away`, async ({
    page,
    app,
  }) => {
    test.setTimeout(120_000);
    const before = await everythingOf(app);
    await lookRound(page, surgeon);
    // What every room of the fellow says is read where its numbers are followed.
    for (const room of surgeon === 'fellow' ? [] : ROOMS) {
      const path = await pathOf(room, page);
      if (path === null) continue;
      await page.goto(path);
      await says(page, surgeon, room.name);
    }
    await page.getByRole('link', { name: 'Remove it' }).click();
    await page.getByRole('button', { name: 'Remove the invented surgeon' }).click();
    await expect(
      page.getByText('The invented surgeon was removed, with everything that belonged to it.'),
    ).toBeVisible();
    expect(await everythingOf(app)).toEqual(before);
    await page.goto('/');
    await expect(page.getByRole('link', { name: 'Bring in times' })).toBeVisible();
  });
