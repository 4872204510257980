import { readdirSync } from 'node:fs';
import type { Page } from 'playwright/test';
import { expect, test } from './fixture';
import { methodLinks } from './method-links';
import { startWith } from './records';
import { pathOf, ROOMS, type Room } from './rooms';
import { says } from './says';

test.beforeAll(({ app }) => startWith(app, 'fellow'));

const HOUSE: readonly Room[] = [
  ...ROOMS.filter(({ name }) => name !== 'method-page'),
  { name: 'report-goal', path: '/report?of=goal-1' },
  { name: 'plan-aimed', path: '/plan?step=capsulorhexis&procedure=phaco&eyes=pupil:small' },
  // Last: the typeface of its formulas is at hand in the browser from then on, and counted with every page.
  ...ROOMS.filter(({ name }) => name === 'method-page'),
];
/** The rooms that list the pages on how numbers are made, and one that is none. */
const NO_NUMBERS = ['method', 'method-page', 'no-such-page'];

/** What a room shows, and so must lead to. */
const MUST: Readonly<Record<string, readonly string[]>> = {
  choose: ['suggestion', 'certainty', 'adjusted', 'median', 'spread', 'reference', 'share', 'returned-to', 'over-time'],
  'waiting-note': ['waiting'],
  'over-time': ['two-stretches', 'median'],
  step: ['median', 'spread', 'reference', 'patterns', 'pair', 'case-by-case', 'step-time', 'returned-to', 'events'],
  plan: ['suggestion', 'baseline-cases', 'what-twenty-can-show', 'result', 'steadier'],
  'plan-aimed': ['aimed'],
  'plan-set': ['baseline-cases', 'next-twenty'],
  'after-twenty': ['next-twenty', 'done', 'events', 'monitor'],
  'after-twenty-past': [
    'result',
    'error-rates',
    'lasting',
    'run-chart',
    'other-charts',
    'done',
    'events',
    'next-twenty',
  ],
  'report-goal': ['step-time', 'result', 'events'],
  settings: ['monitor'],
};

/** Bytes as they went over the wire, by what they are. */
const loaded = (page: Page) =>
  page.evaluate(() =>
    (performance.getEntriesByType('resource') as PerformanceResourceTiming[]).map(({ name, encodedBodySize }) => ({
      name: new URL(name).pathname,
      bytes: encodedBodySize,
    })),
  );

test('every room of the fellow says what it must, leads to how its numbers are made, and weighs no more than it may', async ({
  page,
  app,
}) => {
  test.setTimeout(240_000);
  const styles = new Map<string, number>();
  const led = new Set<string>();
  for (const room of HOUSE) {
    const path = await pathOf(room, page);
    expect.soft(path, room.name).not.toBeNull();
    if (path === null) continue;
    await page.goto(path, { waitUntil: 'load' });
    await page.evaluate(() => document.fonts.ready);
    await says(page, 'fellow', room.name);
    await weighs(page, room, styles);
    if (!NO_NUMBERS.includes(room.name)) for (const id of await leadsTo(page, room)) led.add(id);
  }
  expect([...styles.keys()].filter((name) => name.endsWith('.woff2'))).toHaveLength(3);
  expect([...styles.values()].reduce((sum, bytes) => sum + bytes, 0)).toBeLessThanOrEqual(260_000);
  for (const id of led) expect.soft((await fetch(new URL(`/method/${id}`, app.origin))).status, id).toBe(200);
  const written = readdirSync(new URL('../../content/method/', import.meta.url)).map((file) =>
    file.replace(/^\d+-|\.md$/g, ''),
  );
  // The list of changes is about numbers of before, and nobody timed a case of the fellow twice (recording.spec.ts):
  // the room that lists all pages leads to these.
  const elsewhere = ['changes', 'timing-error'];
  expect([...led].sort()).toEqual(written.filter((id) => !elsewhere.includes(id)).sort());
});

/** Scripts of this room; styles and typefaces are gathered, each once, however many rooms ask for it. */
async function weighs(page: Page, { name }: Room, styles: Map<string, number>): Promise<void> {
  const files = await loaded(page);
  const scripts = files.filter((file) => file.name.endsWith('.js'));
  expect.soft(scripts.length, name).toBeGreaterThan(0);
  const sum = scripts.reduce((so, { bytes }) => so + bytes, 0);
  expect.soft(sum, name).toBeLessThanOrEqual(90_000);
  // The letters of a formula: fetched by the pages on method that have one, and by no other.
  const isGreek = (file: string) => /-greek-.*\.woff2$/.test(file);
  if (name !== 'method-page')
    expect
      .soft(
        files.some((file) => isGreek(file.name)),
        name,
      )
      .toBe(false);
  for (const file of files)
    if (/\.(css|woff2)$/.test(file.name) && !isGreek(file.name))
      styles.set(file.name, Math.max(file.bytes, styles.get(file.name) ?? 0));
}

/** Links to how numbers are made: those there must be, each with a name of its own. @returns the pages they lead to */
async function leadsTo(page: Page, room: Room): Promise<string[]> {
  const links = await methodLinks(page);
  const ids = links.map(({ href }) => href.replace('/method/', ''));
  expect.soft(ids, room.name).toEqual(expect.arrayContaining([...(MUST[room.name] ?? [])]));
  const pages = new Map<string, string>();
  for (const { name, href } of links) {
    expect.soft(name, `${room.name}, ${href}`).toMatch(/how it is made/i);
    expect.soft(pages.get(name) ?? href, `${room.name}: "${name}" leads to two pages`).toBe(href);
    pages.set(name, href);
  }
  return ids;
}
