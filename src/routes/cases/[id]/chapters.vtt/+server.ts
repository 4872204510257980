import { error } from '@sveltejs/kit';
import { hiddenCaseIds } from '$lib/rooms/goals/hidden-times';
import { HIDDEN_UNTIL } from '$lib/words/hidden-until';
import { procedureOf } from '$lib/model';
import { hasClockReadings, writeChapters } from '$lib/intake';
import { readRecord } from '$lib/server/record';
import type { RequestHandler } from './$types';

/** The marks of one case as chapters for its recording; nothing of a running window, as on its page. */
export const GET: RequestHandler = async ({ locals, params }) => {
  const record = await readRecord(locals.store);
  const one = record.cases.find(({ id }) => id === params.id);
  if (!one) error(404, 'There is no such case in the record.');
  if (hiddenCaseIds(record).has(one.id))
    error(403, `The times of this case belong to the window of a running goal, and are ${HIDDEN_UNTIL}.`);
  if (!hasClockReadings(one)) error(404, 'Of this case only lengths are known, so it has no chapter marks.');
  return new Response(writeChapters(one, procedureOf(record, one.procedureId)), {
    headers: {
      'content-type': 'text/vtt; charset=utf-8',
      'content-disposition': 'attachment; filename="chapters.vtt"',
      'cache-control': 'no-store',
    },
  });
};
