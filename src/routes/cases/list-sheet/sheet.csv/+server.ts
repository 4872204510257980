import { error } from '@sveltejs/kit';
import { listSheet, listSheetCsv, sheetListOf, sheetRows } from '$lib/rooms/lists/list-sheet';
import { casesOfList } from '$lib/rooms/lists/list-view';
import { procedureOf } from '$lib/model';
import { readRecord } from '$lib/server/record';
import type { RequestHandler } from './$types';

/** The list sheet to fill in on a computer; `list`: with that list, its places and codes in it. */
export const GET: RequestHandler = async ({ locals, url }) => {
  const record = await readRecord(locals.store);
  const asked = url.searchParams.get('list');
  const list = record.lists.find(({ id }) => id === asked);
  if (asked !== null && !list) error(404, 'There is no such list in the record.');
  const cases = list ? casesOfList(list, record) : [];
  const named = cases[0]?.procedureId ?? url.searchParams.get('procedure') ?? record.profile.procedureId;
  const procedure = procedureOf(record, named);
  const sheet = listSheet(procedure, sheetRows(url.searchParams.get('rows')));
  const own = cases.filter(({ procedureId }) => procedureId === procedure.id);
  const belongs = list ? sheetListOf(list, record.lists) : undefined;
  return new Response(listSheetCsv(sheet, own, belongs), {
    headers: {
      'content-type': 'text/csv; charset=utf-8',
      'content-disposition': `attachment; filename="list-sheet-${procedure.id}.csv"`,
      'cache-control': 'no-store',
    },
  });
};
