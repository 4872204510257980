import { readdirSync, readFileSync } from 'node:fs';
import { dirname, join, relative } from 'node:path';
import { expect, type BrowserContext, type Page } from 'playwright/test';

const ROUTES = join(process.cwd(), 'src/routes');

/** What is one of many in an address: an id of the record, or a part in brackets of a folder. */
const oneOfMany = (path: string) =>
  path
    .replace(/\[[^\]]+\]|\$?\{[^}]+\}/g, '[]')
    .replace(/\/(?:case|list|goal|reflection|import|reference)-\d+/g, '/[]')
    .replace(/^\/checkpoints\/rehearsals\/[a-z-]+/, '/checkpoints/rehearsals/[]')
    .replace(/^\/checkpoints\/(?!rehearsals)[a-z-]+\/[a-z-]+/, '/checkpoints/[]/[]');

const named = (path: string, action: string) => `${oneOfMany(path).replace(/\/$/, '') || '/'} ${action}`;

/** Every form with an action in the pages of these rooms, as its source has it: "/cases/[]/ leaveOut". */
export function formsOf(rooms: readonly string[], except: readonly string[] = []): string[] {
  const found = new Set<string>();
  for (const file of readdirSync(ROUTES, { recursive: true, encoding: 'utf8' })) {
    if (!file.endsWith('.svelte')) continue;
    const folder = `/${relative(ROUTES, dirname(join(ROUTES, file))).replaceAll('\\', '/')}`;
    for (const [, path = '', action = ''] of readFileSync(join(ROUTES, file), 'utf8').matchAll(
      /["'`]([^"'`\s?]*)\?\/([A-Za-z]+)/g,
    ))
      found.add(named(path === '' ? folder : path, action));
  }
  const within = (form: string, room: string) => (room === '/' ? /^\/ /.test(form) : form.startsWith(room));
  return [...found]
    .filter((form) => rooms.some((room) => within(form, room)) && !except.some((room) => within(form, room)))
    .sort();
}

/** Writes down every form that is sent in this window. */
export function sentForms(context: BrowserContext): Set<string> {
  const sent = new Set<string>();
  context.on('request', (request) => {
    const url = new URL(request.url());
    const action = /^\?\/([A-Za-z]+)/.exec(url.search)?.[1];
    if (request.method() === 'POST' && action) sent.add(named(url.pathname, action));
  });
  return sent;
}

export const press = (page: Page, name: string | RegExp) =>
  page.getByRole('button', typeof name === 'string' ? { name, exact: true } : { name }).click();

/** Opens what is one key away; where it is open already it stays so. */
export async function unfold(page: Page, summary: string): Promise<void> {
  const found = page.locator('summary', { hasText: summary }).first();
  if (!(await found.evaluate((element) => (element.parentElement as HTMLDetailsElement).open))) await found.click();
}

/**
 * A file looked at in a record that has own cases: whose these are is asked, and, where the step of the goal under way is in
 * no column, whether it is there under another name.
 */
export async function takenAsOwn(page: Page): Promise<void> {
  const take = page.getByRole('button', { name: /^(Take|Fill in) / });
  await expect(async () => {
    await page.locator('input[name="whose"][value="me"]').check({ timeout: 1000 });
    for (const notThere of await page.getByRole('radio', { name: /^no: .* was not timed/ }).all())
      await notThere.check({ timeout: 1000 });
    await press(page, 'Look again with these answers');
    await expect(take).toBeVisible({ timeout: 2000 });
  }).toPass({ timeout: 30_000 });
}
