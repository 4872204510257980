import { hiddenCaseIds } from '$lib/rooms/goals/hidden-times';
import { procedureOf } from '$lib/model';
import { waitingNote } from '$lib/rooms/choose/waiting-view';
import { loadCautions } from '$lib/server/content';
import { readRecord } from '$lib/server/record';
import type { PageServerLoad } from './$types';

export const load: PageServerLoad = async ({ locals, url }) => {
  const record = await readRecord(locals.store);
  const asked = url.searchParams.get('procedure');
  const procedure = procedureOf(record, asked ?? record.profile.procedureId);
  const hidden = hiddenCaseIds(record);
  return {
    note: waitingNote(
      record.cases.filter(({ id }) => !hidden.has(id)),
      procedure,
    ),
    back: asked ? `/choose?procedure=${procedure.id}` : '/choose',
    waiting: loadCautions().waiting.paragraphs,
  };
};
