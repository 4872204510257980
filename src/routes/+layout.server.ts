import { monthLine } from '$lib/rooms/now/month-line';
import { loadCautions } from '$lib/server/content';
import { readRecord } from '$lib/server/record';
import type { LayoutServerLoad } from './$types';

export const load: LayoutServerLoad = async ({ locals }) => {
  const record = await readRecord(locals.store);
  return {
    invented: record.cases.some((each) => each.invented),
    month: monthLine(record),
    cautions: loadCautions().standing.paragraphs,
  };
};
