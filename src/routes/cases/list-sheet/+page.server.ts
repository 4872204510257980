import { listSheet, sheetRows } from '$lib/rooms/lists/list-sheet';
import { stepsNotedLast } from '$lib/rooms/lists/list-times';
import { procedureOf } from '$lib/model';
import { loadCautions } from '$lib/server/content';
import { proceduresOf } from '$lib/server/procedures';
import type { PageServerLoad } from './$types';

export const load: PageServerLoad = async ({ locals, url }) => {
  const [procedures, profile, cases] = await Promise.all([
    proceduresOf(locals.store),
    locals.store.profile(),
    locals.store.cases(),
  ]);
  const procedure = procedureOf({ procedures, profile }, url.searchParams.get('procedure') ?? profile.procedureId);
  const rows = sheetRows(url.searchParams.get('rows'));
  return {
    sheet: listSheet(procedure, rows, stepsNotedLast({ cases }, procedure.id)),
    times: url.searchParams.get('times') === 'yes',
    standing: loadCautions().standing.paragraphs,
    procedures: procedures.map(({ id, name }) => ({ value: id, label: name })),
  };
};
