import { test } from './fixture';
import { startWith } from './records';
import { checkRooms } from './rooms-check';

test.beforeAll(({ app }) => startWith(app, 'empty'));

test('every room can be read and used by everybody, with nothing in it', async ({ page, app }) => {
  test.setTimeout(240_000);
  await checkRooms(page, app, [
    'case',
    'case-timed',
    'list-facts',
    'step',
    'plan',
    'plan-set',
    'reflection',
    'after-twenty-past',
  ]);
});
