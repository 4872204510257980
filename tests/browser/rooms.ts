import type { Page } from 'playwright/test';

/** A room, by its address or by following the first link of each kind from a page: ids differ from record to record. */
export type Room = { name: string } & ({ path: string } | { on: string; links: readonly RegExp[] });

/** Every room of the house, in the order in which a month goes through them. */
export const ROOMS: readonly Room[] = [
  { name: 'now', path: '/' },
  { name: 'cases', path: '/cases' },
  { name: 'case', on: '/cases', links: [/^\/cases\/case-[^/]+$/] },
  { name: 'case-timed', on: '/cases?page=3', links: [/^\/cases\/case-[^/]+$/] },
  { name: 'list-facts', on: '/cases', links: [/^\/cases\/lists\/list-[^/]+$/] },
  { name: 'list-times', on: '/cases', links: [/^\/cases\/lists\/list-[^/]+$/, /^\/cases\/lists\/list-[^/]+\/times$/] },
  { name: 'new-list', path: '/cases/lists/new' },
  { name: 'list-sheet', path: '/cases/list-sheet' },
  { name: 'timing-plan', path: '/cases/timing-plan?when=31&operated=9' },
  { name: 'new-case', path: '/cases/new' },
  { name: 'time', path: '/cases/time' },
  { name: 'bring-in', path: '/cases/bring-in' },
  { name: 'choose', path: '/choose' },
  { name: 'choose-seconds', path: '/choose?view=seconds' },
  { name: 'choose-spread', path: '/choose?view=spread' },
  { name: 'waiting-note', path: '/choose/waiting' },
  { name: 'over-time', path: '/choose/over-time' },
  { name: 'step', on: '/choose', links: [/^\/choose\/[a-z-]+/] },
  { name: 'pair', on: '/choose', links: [/^\/choose\/[a-z-]+/, /^\/choose\/[^/]+\/pair/] },
  { name: 'clips', on: '/choose', links: [/^\/choose\/[a-z-]+/, /^\/choose\/[^/]+\/clips/] },
  { name: 'plan', on: '/choose', links: [/^\/choose\/[a-z-]+/, /^\/plan\?/] },
  { name: 'plan-own-reason', path: '/plan' },
  { name: 'plan-set', on: '/after-twenty', links: [/^\/plan\/goal-/] },
  { name: 'before-a-list', path: '/before-a-list' },
  { name: 'reflect', path: '/reflect' },
  { name: 'reflect-new', path: '/reflect/new' },
  { name: 'reflection', on: '/reflect', links: [/^\/reflect\/reflection-/] },
  { name: 'after-twenty', path: '/after-twenty' },
  { name: 'after-twenty-past', on: '/after-twenty', links: [/^\/after-twenty\/goal-1$/] },
  { name: 'mentor', on: '/after-twenty', links: [/^\/after-twenty\/goal-\d+\/mentor$/] },
  { name: 'report', path: '/report' },
  { name: 'checkpoints', path: '/checkpoints' },
  { name: 'checkpoint-page', on: '/checkpoints', links: [/^\/checkpoints\/[a-z-]+\/[a-z-]+/] },
  { name: 'eyes-closed', path: '/checkpoints/phaco/capsulorhexis/eyes-closed' },
  { name: 'method', path: '/method' },
  { name: 'method-page', on: '/method', links: [/^\/method\/[a-z0-9-]+/] },
  { name: 'settings', path: '/settings' },
  { name: 'more', path: '/more' },
  { name: 'procedures', path: '/settings/procedures' },
  { name: 'procedure', on: '/settings/procedures', links: [/^\/settings\/procedures\/(?!new)[^/]+$/] },
  { name: 'procedure-words', path: '/settings/procedures/phaco/words' },
  { name: 'procedure-step', path: '/settings/procedures/phaco/steps/capsulorhexis' },
  { name: 'procedure-fact', path: '/settings/procedures/phaco/facts/nucleus' },
  { name: 'procedure-new', path: '/settings/procedures/new' },
  { name: 'packet', path: '/settings/packet' },
  { name: 'restore', path: '/settings/restore' },
  { name: 'backups', path: '/settings/backups' },
  { name: 'faults', path: '/settings/faults' },
  { name: 'no-such-page', path: '/no-such-page' },
];

/**
 * The address of a room in this record, by the links of the pages as the server sends them: nothing is drawn for it.
 * @returns `null` where nothing leads to it
 */
export async function pathOf(room: Room, page: Page): Promise<string | null> {
  if ('path' in room) return room.path;
  let at: string | undefined = room.on;
  for (const link of room.links) {
    at = (await linksSent(page, at)).find((each) => link.test(each));
    if (at === undefined) return null;
  }
  return at;
}

async function linksSent(page: Page, path: string): Promise<string[]> {
  const sent = await page.request.get(path);
  const [html, base] = [await sent.text(), sent.url()];
  return [...html.matchAll(/<a\b[^>]*\shref="([^"]*)"/g)].flatMap(([, href = '']) => {
    const url = new URL(href.replaceAll('&amp;', '&'), base);
    return url.origin === new URL(base).origin ? [url.pathname + url.search] : [];
  });
}

/** What of the page is wider than the window, outermost first; empty where nothing is. Tables that scroll inside do not count. */
export const widerThanThePage = (page: Page): Promise<string[]> =>
  page.evaluate(() => {
    const width = document.documentElement.clientWidth;
    if (document.documentElement.scrollWidth <= width) return [];
    const scrolls = (element: Element | null): boolean =>
      element !== null &&
      (/(auto|scroll|hidden|clip)/.test(getComputedStyle(element).overflowX) || scrolls(element.parentElement));
    const found = [...document.body.querySelectorAll('*')]
      .filter((each) => each.getBoundingClientRect().right > width + 0.5 && !scrolls(each.parentElement))
      .slice(0, 5)
      .map(
        (each) =>
          `${each.tagName.toLowerCase()}.${each.getAttribute('class') ?? ''} ${each.textContent?.trim().slice(0, 40)}`,
      );
    return found.length > 0 ? found : ['something that could not be named'];
  });
