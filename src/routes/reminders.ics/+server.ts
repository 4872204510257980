import { remindersOf } from '$lib/rooms/now/reminders';
import { calendarFile } from '$lib/server/calendar';
import { readRecord } from '$lib/server/record';
import type { RequestHandler } from './$types';

/** Reminders for any calendar to take in. A file, not a feed: nothing is sent, and nothing looks in here by itself. */
export const GET: RequestHandler = async ({ locals }) =>
  new Response(calendarFile(remindersOf(await readRecord(locals.store), locals.now.slice(0, 10)), locals.now), {
    headers: {
      'content-type': 'text/calendar; charset=utf-8',
      'content-disposition': 'attachment; filename="next-twenty-reminders.ics"',
      'cache-control': 'no-store',
    },
  });
