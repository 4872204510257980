import { test } from './fixture';
import { startWith } from './records';
import { checkRooms } from './rooms-check';

test.beforeAll(({ app }) => startWith(app, 'fellow'));
// A full look at each room is the longest of these tests: every second room by another worker, where one is free.
test.describe.configure({ mode: 'parallel' });

for (const [which, rest] of [
  ['first', 0],
  ['second', 1],
] as const)
  test(`every room can be read and used by everybody, with the fellow in it: each ${which} of two`, async ({
    page,
    app,
  }) => {
    test.setTimeout(300_000);
    await checkRooms(page, app, [], (at) => at % 2 === rest);
  });
