import type { Page } from 'playwright/test';
import type { App } from './app';
import { BITS, frameShown, madeClip, numberIn, type ClipPlan } from './clips';
import { expect, test } from './fixture';
import { open } from './open';
import { everythingOf, post, startWith } from './records';

const PLAN: ClipPlan = {
  seconds: 30,
  rate: 25,
  width: 320,
  height: 180,
  bars: [
    [4, 9],
    [12, 20],
  ],
};
const FRAME = 1 / PLAN.rate;

let clip: Buffer;
const file = (buffer = clip, name = 'theatre 3 Smith.webm') => ({ name, mimeType: 'video/webm', buffer });

/** Facts first, then the recording, as a surgeon comes to it. */
async function timing(app: App, page: Page, code: string): Promise<void> {
  await post(app, '/cases/time?/consent', {});
  const form = { code, procedure: 'phaco', hands: 'mine', events: 'none', 'fact-nucleus': 'medium', to: 'recording' };
  await open(page, await post(app, '/cases/new?/facts', form));
}

async function opened(page: Page, buffer = clip): Promise<void> {
  await page.getByLabel(/recording of this case|Another recording/).setInputFiles(file(buffer));
  await expect(page.locator('.clock')).toBeVisible();
  await page.locator('h1').click(); // keys belong to the page, not to the field of the file
}

const press = async (page: Page, keys: string) => {
  for (const key of keys.split(' ')) await page.keyboard.press(key);
};
const shown = async (page: Page) => Number(await page.locator('.clock').getAttribute('data-shown'));

/** Waits until the picture has arrived: the clock says the frame that the picture shows. */
async function arrived(page: Page, seconds: number): Promise<void> {
  await expect.poll(() => shown(page)).toBeCloseTo(seconds, 2);
}

test.describe('before the first recording', () => {
  test.beforeAll(({ app }) => startWith(app, 'empty'));

  test('is asked about first, once', async ({ page, app }) => {
    await open(page, '/cases/time');
    await expect(page.getByText("the patient's consent for recording allow it")).toBeVisible();
    await expect(page.locator('input[type=file]')).toHaveCount(0);
    await page.getByRole('button', { name: 'I have checked this' }).click();
    await expect(page.getByRole('link', { name: 'Begin with the facts of the eye' })).toBeVisible();
    expect((await everythingOf(app)).profile.recordingsConsentAt).not.toBeNull();
  });
});

test.describe('a recording', () => {
  test.beforeAll(async ({ app, browser }) => {
    test.setTimeout(180_000);
    await startWith(app, 'empty');
    const page = await browser.newPage();
    await page.goto(app.origin);
    clip = await madeClip(page, PLAN);
    await page.close();
  });

  test('is stepped through frame by frame, and marks by keyboard are of the frame that is shown', async ({
    page,
    app,
  }) => {
    test.setTimeout(120_000);
    await timing(app, page, 'T1');
    await opened(page);
    await press(page, 'ArrowRight ArrowRight ArrowRight');
    await arrived(page, 3 * FRAME);
    expect(await frameShown(page)).toBe(3);
    await press(page, 'ArrowLeft');
    await arrived(page, 2 * FRAME);
    expect(await frameShown(page)).toBe(2);
    await press(page, 'Shift+ArrowRight s');
    await expect(page.getByRole('button', { name: /^Incision|^Side port/ }).first()).toBeVisible();
    const first = await frameShown(page);
    await press(page, 'Shift+ArrowRight Shift+ArrowRight ArrowRight e');
    await expect(page.getByRole('button', { name: /Mark the start/ })).toBeVisible();
    const last = await frameShown(page);
    // Half a second is twelve frames and a half: from the middle of a frame to the beginning of the thirteenth after it.
    expect([first, last]).toEqual([15, 42]);
    await page.getByRole('button', { name: 'Store the case' }).click();
    await expect(page.getByText('The case is in the record.')).toBeVisible();
    const { cases } = await everythingOf(app);
    const one = cases.find(({ code }) => code === 'T1');
    expect(one).toMatchObject({ source: { kind: 'timed' }, recording: { size: clip.length, label: null } });
    expect(one?.stretches).toEqual([
      {
        stepId: 'side-port',
        start: expect.closeTo(first * FRAME, 3) as unknown as number,
        end: expect.closeTo(last * FRAME, 3) as unknown as number,
        seconds: expect.closeTo((last - first) * FRAME, 3) as unknown as number,
        kind: 'step',
        reason: null,
      },
    ]);
    expect(JSON.stringify(await everythingOf(app))).not.toContain('Smith');
  });

  test('a mark made while it plays at four times is of the frame shown at that moment', async ({ page, app }) => {
    test.setTimeout(120_000);
    await timing(app, page, 'T2');
    await opened(page);
    // What the picture shows when a key goes down, read before the page hears of the key.
    await page.evaluate(
      ([read, bits]) => {
        const numberOf = new Function(`return ${read}`)() as (video: HTMLVideoElement, bits: number) => number;
        const seen: number[] = [];
        Object.assign(window, { seen });
        window.addEventListener(
          'keydown',
          ({ key }) => {
            const video = document.querySelector('video');
            if (video && 'se'.includes(key)) seen.push(numberOf(video, bits));
          },
          { capture: true },
        );
      },
      [numberIn.toString(), BITS] as const,
    );
    await press(page, '5 Space');
    await expect.poll(() => shown(page)).toBeGreaterThan(2);
    await press(page, 's');
    await expect.poll(() => shown(page)).toBeGreaterThan(6);
    await press(page, 'e Space');
    await page.getByRole('button', { name: 'Store the case' }).click();
    await expect(page.getByText('The case is in the record.')).toBeVisible();
    const { cases } = await everythingOf(app);
    const [stretch] = cases.find(({ code }) => code === 'T2')?.stretches ?? [];
    const seen = await page.evaluate(() => (window as unknown as { seen: number[] }).seen);
    // At four times a picture of the screen stands for two or three frames, so one of the screen may lie between.
    for (const [at, frame] of [
      [stretch?.start, seen[0]],
      [stretch?.end, seen[1]],
    ])
      expect(Math.abs((at ?? 0) / FRAME - (frame ?? -99))).toBeLessThanOrEqual(4);
  });

  test('marks are found again after a reload in the middle, and undone and done again', async ({ page, app }) => {
    test.setTimeout(120_000);
    await timing(app, page, 'T3');
    await opened(page);
    await press(page, 'Shift+ArrowRight s Shift+ArrowRight Shift+ArrowRight e Shift+ArrowRight s w Shift+ArrowRight w');
    await expect(page.getByRole('button', { name: /waiting, to/ })).toBeVisible();
    const marks = await page.locator('tbody').innerText();
    await page.reload();
    await expect(page.locator('tbody')).toHaveText(marks.replace(/\s+/g, ' ').trim() === '' ? '' : /.+/);
    expect(await page.locator('tbody').innerText()).toBe(marks);
    await expect(page.getByText('open the same recording to go on')).toBeVisible();
    await opened(page);
    await press(page, 'u u u');
    await expect(page.getByRole('button', { name: /waiting, to/ })).toHaveCount(0);
    await press(page, 'y y y');
    await expect(page.getByRole('button', { name: /waiting, to/ })).toBeVisible();
    expect(await page.locator('tbody').innerText()).toBe(marks);
    await open(page, '/cases/time');
    await expect(page.getByRole('link', { name: 'T3' })).toBeVisible();
  });

  test('another recording than the marks were made on is said to be one', async ({ page, app }) => {
    await timing(app, page, 'T4');
    await opened(page);
    await press(page, 's');
    await opened(page, Buffer.concat([clip, Buffer.from([0xec, 0x80])])); // an empty element: it plays, and is another file
    await expect(page.getByText('This is not the recording these marks were made on')).toBeVisible();
  });

  test('what does not play says so, and what to do', async ({ page, app }) => {
    await timing(app, page, 'T5');
    const field = page.getByLabel(/recording of this case|Another recording/);
    for (const [buffer, words] of [
      [Buffer.alloc(0), /0 bytes/],
      [Buffer.from('no recording at all'), /does not play this recording/],
      [clip.subarray(0, 300), /does not play this recording/],
    ] as const) {
      await field.setInputFiles(file(buffer));
      await expect(page.getByRole('alert')).toHaveText(words);
    }
    await opened(page);
    await expect(page.getByRole('alert')).toHaveCount(0);
  });

  test('two tabs: neither writes over the other', async ({ page, app, context }) => {
    test.setTimeout(120_000);
    await timing(app, page, 'T6');
    await opened(page);
    const other = await context.newPage();
    await open(other, '/cases/time?code=T6');
    await opened(other);
    await press(page, 's Shift+ArrowRight e');
    await expect(page.getByRole('button', { name: /Side port, to/ })).toBeVisible();
    await press(other, 'Shift+ArrowRight s');
    await expect(other.getByText('being timed in another tab')).toBeVisible();
    await other.getByRole('button', { name: 'Go on with the other marks' }).click();
    await expect(other.getByRole('button', { name: /Side port, to/ })).toBeVisible();
  });

  test('has a contact sheet, and ticks where a bar comes and goes', async ({ page, app }) => {
    test.setTimeout(180_000);
    await timing(app, page, 'T7');
    await opened(page);
    await expect(page.locator('input[name=picture]')).toHaveCount(15, { timeout: 60_000 });
    await expect(page.getByText('Short strokes: sharp changes of the picture')).toBeVisible({ timeout: 120_000 });
    const ticks = await page.locator('line.change').count();
    expect(ticks).toBeLessThanOrEqual(4);
    const found: number[] = [];
    for (let n = 0; n < ticks; n += 1) {
      await press(page, ']');
      await page.waitForTimeout(300);
      found.push(await shown(page));
    }
    for (const change of [4, 9, 12, 20])
      expect(Math.min(...found.map((at) => Math.abs(at - change)))).toBeLessThanOrEqual(0.5);
    await page.locator('input[name=picture]').nth(5).check({ force: true });
    await arrived(page, 10);
  });
});

test.describe('a whole operation', () => {
  test.beforeAll(({ app }) => startWith(app, 'empty'));

  // A step after another without a break, and a change of the picture where each begins and the last one ends.
  const changes = Array.from({ length: 14 }, (_, n) => Math.round(10 * (4 + 7.1 * n)) / 10);
  const plan: ClipPlan = {
    seconds: 102,
    rate: 10,
    width: 192,
    height: 108,
    bars: changes.filter((_, n) => n % 2 === 0).map((from, n) => [from, changes[2 * n + 1] ?? 102] as const),
  };

  test('takes at most sixty keys, each mark on its frame; a mark is nudged, typed and taken back', async ({
    page,
    app,
  }) => {
    test.setTimeout(240_000);
    await page.goto(app.origin);
    const whole = await madeClip(page, plan);
    await timing(app, page, 'T10');
    await opened(page, whole);
    await expect(page.getByText('Short strokes: sharp changes of the picture')).toBeVisible({ timeout: 150_000 });
    await expect(page.getByText('All of it plays in about 1:42')).toBeVisible();
    let keys = 0;
    const key = async (name: string) => {
      await page.keyboard.press(name);
      keys += 1;
    };
    for (const [n, change] of changes.entries()) {
      const frame = Math.round(change * plan.rate);
      await key(']');
      // To the first frame on which the change is seen, as somebody looks for it.
      await expect.poll(async () => Math.abs((await shown(page)) - change)).toBeLessThanOrEqual(0.5);
      for (let at = await frameShown(page); at !== frame; at = await frameShown(page)) {
        await key(at < frame ? 'ArrowRight' : 'ArrowLeft');
        await expect.poll(() => frameShown(page)).not.toBe(at);
      }
      await key(n < changes.length - 1 ? 's' : 'e');
    }
    expect(keys).toBeLessThanOrEqual(60);

    const first = page.getByRole('button', { name: /^Side port, from/ });
    const before = await first.innerText();
    await first.click();
    await press(page, 'ArrowRight');
    await expect(first).toHaveAccessibleName(/from 0:04\.1:/);
    await page.getByLabel('Time', { exact: true }).fill('0:03.5');
    await page.getByLabel('Time', { exact: true }).press('Enter');
    await expect(first).toHaveText(/0:03/);
    await page.getByLabel('Time', { exact: true }).fill('ninety');
    await page.getByLabel('Time', { exact: true }).press('Enter');
    await expect(page.getByRole('alert')).toContainText('no place in a recording');
    await page.getByRole('button', { name: 'Leave it' }).click();
    await page.locator('h1').click();
    await press(page, 'u u');
    await expect(first).toHaveText(before);
    await page.getByRole('button', { name: 'Store the case' }).click();
    await expect(page.getByText('The case is in the record.')).toBeVisible();
    const { cases } = await everythingOf(app);
    const marks = cases[0]?.stretches.flatMap(({ start, end }) => [start ?? 0, end ?? 0]) ?? [];
    expect(marks).toHaveLength(26);
    for (const [at, mark] of marks.entries())
      expect(Math.abs(mark - (changes[Math.ceil(at / 2)] ?? 0))).toBeLessThan(1 / plan.rate);

    await test.step('timed once more, the first marks hidden', async () => {
      await page.getByRole('link', { name: 'Time it once more, the first marks hidden' }).click();
      await expect(page.getByRole('button', { name: 'Keep the second timing' })).toBeVisible();
      await expect(page.getByRole('button', { name: /, from / })).toHaveCount(0);
      await opened(page, whole);
      await press(page, 's Shift+ArrowRight Shift+ArrowRight e');
      await expect(page.getByRole('button', { name: /^Side port, to/ })).toBeVisible();
      await page.getByRole('button', { name: 'Keep the second timing' }).click();
      await expect(page.getByText('The second timing is kept beside the first')).toBeVisible();
      const [one] = (await everythingOf(app)).cases;
      expect(one?.stretches).toEqual(cases[0]?.stretches);
      expect(one?.timedAgain?.map(({ stepSeconds }) => stepSeconds)).toEqual([{ 'side-port': 1 }]);
      await open(page, '/choose/side-port');
      await expect(page.locator('main')).toContainText('You timed 1 case twice, the first marks hidden');
    });
  });
});

test.describe('with JavaScript off', () => {
  test.use({ javaScriptEnabled: false });
  test.beforeAll(({ app }) => startWith(app, 'empty'));

  test('the page says what it needs and offers typing', async ({ page, app }) => {
    await post(app, '/cases/time?/consent', {});
    const form = {
      code: 'T9',
      procedure: 'phaco',
      hands: 'mine',
      events: 'none',
      'fact-nucleus': 'medium',
      to: 'recording',
    };
    await page.goto(await post(app, '/cases/new?/facts', form));
    // Playwright looks for texts and names everywhere but in a noscript.
    await expect(page.locator('noscript p')).toContainText('needs JavaScript');
    await page.locator('noscript a').click();
    await expect(page).toHaveURL(/\/cases\/new\/times\?code=T9/);
  });
});
