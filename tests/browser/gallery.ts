import { mkdir, rm, writeFile } from 'node:fs/promises';
import { join } from 'node:path';
import { pathToFileURL } from 'node:url';
import { chromium, type Browser } from 'playwright';
import { App } from './app';
import { eyeSheet, readmePictures } from './gallery-extras';
import { waitingRooms } from './records';
import { pathOf, ROOMS, widerThanThePage } from './rooms';
import { lookRound, SURGEONS, type Surgeon } from './surgeons';

type Io = { projectFolder: string; out: (text: string) => void; err: (text: string) => void };

/** Those that are there only while something waits in them come last. */
const NAMES = [...ROOMS.map(({ name }) => name), 'bring-in-look', 'new-case-times'];
const WIDTHS = [360, 768, 1280, 1600] as const;
/** On paper a room is seen once, as wide as an A4 side. */
const THEMES = ['light', 'dark', 'print'] as const;
const A4 = 794;

const USE = `npm run gallery -- [--rooms now,choose] [--surgeons ${SURGEONS.join(',')}] [--widths 360] [--themes dark,print]\n       npm run gallery -- --for readme\n`;

type Wanted = { rooms: string[]; surgeons: Surgeon[]; widths: number[]; themes: (typeof THEMES)[number][] };

/** @returns what was asked for, or `null` where something of it is not known */
function wantedFrom(args: readonly string[]): Wanted | null {
  const wanted: Wanted = {
    rooms: NAMES,
    surgeons: [...SURGEONS],
    widths: [...WIDTHS],
    themes: [...THEMES],
  };
  for (let at = 0; at < args.length; at += 2) {
    const values = (args[at + 1] ?? '').split(',').filter(Boolean);
    const among = <T>(known: readonly T[], say: (value: T) => string = String) =>
      known.filter((each) => values.includes(say(each)));
    if (args[at] === '--rooms') wanted.rooms = among(wanted.rooms);
    else if (args[at] === '--surgeons') wanted.surgeons = among(wanted.surgeons);
    else if (args[at] === '--widths') wanted.widths = values.map(Number).filter((width) => width >= 240);
    else if (args[at] === '--themes') wanted.themes = among(wanted.themes);
    else return null;
  }
  return Object.values(wanted).every((list) => list.length > 0) ? wanted : null;
}

type Shown = {
  surgeon: Surgeon;
  room: string;
  path: string | null;
  status: number;
  pictures: string[];
  wide: string[];
};

/** One record in one window: theme and width change on the open page, which is far cheaper than opening it again. */
async function photograph(
  browser: Browser,
  app: App,
  surgeon: Surgeon,
  wanted: Wanted,
  folder: string,
): Promise<Shown[]> {
  const context = await browser.newContext({ baseURL: app.origin, locale: 'en-GB', timezoneId: 'Europe/London' });
  const page = await context.newPage();
  await lookRound(page, surgeon);
  await mkdir(join(folder, surgeon), { recursive: true });
  const shown: Shown[] = [];
  const rooms = [...ROOMS, ...(await waitingRooms(app))];
  for (const room of rooms.filter(({ name }) => wanted.rooms.includes(name))) {
    const path = await pathOf(room, page);
    const entry: Shown = { surgeon, room: room.name, path, status: 0, pictures: [], wide: [] };
    shown.push(entry);
    if (path === null) continue;
    entry.status = (await page.goto(path, { waitUntil: 'load' }))?.status() ?? 0;
    if (entry.status === 404 && room.name !== 'no-such-page') continue;
    for (const theme of wanted.themes)
      for (const width of theme === 'print' ? [A4] : wanted.widths) {
        const media = theme === 'print' ? 'print' : 'screen';
        await page.emulateMedia({ media, colorScheme: theme === 'dark' ? 'dark' : 'light' });
        await page.setViewportSize({ width, height: 900 });
        const file = `${surgeon}/${room.name}-${width}-${theme}.png`;
        await page.screenshot({ path: join(folder, file), fullPage: true });
        entry.pictures.push(file);
        for (const what of await widerThanThePage(page)) entry.wide.push(`${width}: ${what}`);
      }
  }
  await context.close();
  return shown;
}

const escaped = (text: string) => text.replace(/[&<>"]/g, (sign) => `&#${sign.charCodeAt(0)};`);

const row = ({ surgeon, room, path, status, pictures, wide }: Shown) => `
<section><h2>${surgeon}: ${room} <small>${path === null ? 'nothing leads here' : `${escaped(path)} ${status}`}</small></h2>
${wide.map((what) => `<p><b>Wider than the page</b> at ${escaped(what)}</p>`).join('')}
<p>${pictures.map((file) => `<a href="${file}"><img src="${file}" alt="${file}" loading="lazy" height="320"></a>`).join('\n')}</p></section>`;

/**
 * Photographs every room: each invented surgeon and the empty record, at four widths, light and dark, and as on
 * paper, with a sheet of all drawings, into `gallery/`; `--for readme` makes the two pictures of the README again.
 * @returns exit code: 2 where the arguments are not understood, 1 where a room answered with an error, else 0
 */
export async function run(args: readonly string[], io: Io): Promise<number> {
  const forReadme = args[0] === '--for' && args[1] === 'readme';
  const wanted = forReadme ? wantedFrom([]) : wantedFrom(args);
  if (!wanted) {
    io.err(USE);
    return 2;
  }
  // By path, not by import: these find the project from where they stand, which a bundle would change.
  const ofRun = (file: string) => pathToFileURL(join(io.projectFolder, 'src/run', file)).href;
  const { buildIfStale } = (await import(ofRun('set-up.js'))) as typeof import('../../src/run/set-up.js');
  const found = (await import(ofRun('chromium.js'))) as typeof import('../../src/run/chromium.js');
  await buildIfStale();
  const browser = await chromium.launch({
    executablePath: await found.chromium(),
    args: ['--headless', '--no-sandbox', '--disable-gpu', '--hide-scrollbars'],
  });
  const folder = join(io.projectFolder, 'gallery');
  const app = await App.start();
  const shown: Shown[] = [];
  try {
    if (forReadme) {
      for (const file of await readmePictures(browser, app, io.projectFolder)) io.out(`${file}\n`);
      return 0;
    }
    for (const surgeon of wanted.surgeons) {
      // A few rooms seen again take nothing else away.
      if (wanted.rooms.length === NAMES.length) await rm(join(folder, surgeon), { recursive: true, force: true });
      await app.startEmpty();
      shown.push(...(await photograph(browser, app, surgeon, wanted, folder)));
      io.out(
        `${surgeon}: ${shown.filter((each) => each.surgeon === surgeon && each.pictures.length > 0).length} rooms\n`,
      );
    }
    await mkdir(folder, { recursive: true });
    if (wanted.rooms.length === NAMES.length)
      await eyeSheet(browser, join(folder, 'eye-drawings.png'), io.projectFolder);
  } finally {
    await browser.close();
    await app.remove();
  }
  await writeFile(
    join(folder, 'index.html'),
    `<!doctype html><meta charset="utf-8"><title>Gallery</title><p><a href="eye-drawings.png">All drawings of the eye</a></p>${shown.map(row).join('')}\n`,
  );
  for (const { surgeon, room, wide, status } of shown) {
    if (status >= 500) io.out(`${surgeon} ${room}: answered ${status}\n`);
    for (const what of wide) io.out(`${surgeon} ${room}: wider than the page at ${what}\n`);
  }
  io.out(`${shown.reduce((sum, { pictures }) => sum + pictures.length, 0)} pictures: ${join(folder, 'index.html')}\n`);
  return shown.some(({ status }) => status >= 500) ? 1 : 0;
}
