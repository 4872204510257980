import { listSheet } from '$lib/rooms/lists/list-sheet';
import { procedureOf } from '$lib/model';
import { proceduresOf } from '$lib/server/procedures';
import type { PageServerLoad } from './$types';

export const load: PageServerLoad = async ({ locals, url }) => {
  const [procedures, profile] = await Promise.all([proceduresOf(locals.store), locals.store.profile()]);
  const procedure = procedureOf({ procedures, profile }, url.searchParams.get('procedure') ?? profile.procedureId);
  return {
    sheet: listSheet(procedure, url.searchParams.get('rows') === '40' ? 40 : 20),
    procedures: procedures.map(({ id, name }) => ({ value: id, label: name })),
  };
};
