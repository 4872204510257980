import { test } from './fixture';
import { startWith } from './records';
import { checkRooms } from './rooms-check';

test.beforeAll(({ app }) => startWith(app, 'fellow'));

test('every room can be read and used by everybody, with the fellow in it', async ({ page, app }) => {
  test.setTimeout(240_000);
  await checkRooms(page, app, []);
});
