import type { Page } from 'playwright/test';

type Link = { href: string; name: string };

/** Links to method pages, those behind a fold included, by the name a screen reader gives them. */
export async function methodLinks(page: Page): Promise<Link[]> {
  // What is folded has no name yet.
  await page.$$eval('details', (folds) => folds.forEach((fold) => (fold.open = true)));
  const links = page.locator('a[href^="/method/"]');
  return Promise.all(
    Array.from({ length: await links.count() }, async (_, at) => ({
      href: (await links.nth(at).getAttribute('href')) ?? '',
      name: nameIn(await links.nth(at).ariaSnapshot()),
    })),
  );
}

/** `- link "How it is made: usual":` → `How it is made: usual`. */
const nameIn = (snapshot: string): string => /link "(.*?)"/.exec(snapshot)?.[1] ?? '';
