import { expect, test } from './fixture';
import { open } from './open';
import { startWith } from './records';
import { widerThanThePage } from './rooms';
import { checkRooms, findings, narrowFindings } from './rooms-check';

test.beforeAll(({ app }) => startWith(app, 'empty'));

test('every room can be read and used by everybody, with nothing in it', async ({ page, app }) => {
  test.setTimeout(300_000);
  await checkRooms(page, app, [
    'case',
    'case-timed',
    'list-facts',
    'list-times',
    'step',
    'pair',
    'clips',
    'plan',
    'plan-set',
    'reflection',
    'after-twenty-past',
    'mentor',
  ]);
});

test('the check itself notices grey on grey, a small target, a field without a name and what is too wide', async ({
  page,
}) => {
  await open(page, '/choose');
  await page.evaluate(() => {
    const add = (tag: string, text: string, style: Partial<CSSStyleDeclaration>) => {
      const element = Object.assign(document.createElement(tag), { textContent: text });
      Object.assign(element.style, style);
      document.querySelector('main')?.append(element);
    };
    add('p', 'grey on grey', { color: '#999', background: '#888' });
    add('input', '', {});
    add('div', 'wide', { width: '3000px' });
    for (const text of ['a', 'b']) add('button', text, { minHeight: '0', height: '8px', width: '8px', padding: '0' });
  });
  const inFull = (await findings(page)).join();
  for (const rule of ['color-contrast', 'label']) expect(inFull).toContain(rule);
  const narrow = (await narrowFindings(page)).join();
  for (const rule of ['color-contrast', 'target-size']) expect(narrow).toContain(rule);
  expect(await widerThanThePage(page)).not.toEqual([]);
});
