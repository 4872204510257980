import { monthLine } from '$lib/rooms/now/month-line';
import { loadCautions } from '$lib/server/content';
import { readRecord } from '$lib/server/record';
import { orDamaged } from '$lib/server/say-damage';
import type { LayoutServerLoad } from './$types';

export const load: LayoutServerLoad = async ({ locals }) => {
  const [record, damaged] = await Promise.all([readRecord(locals.store), locals.store.damaged()]);
  return {
    damaged: damaged.map(({ holds }) => holds),
    invented: orDamaged(() => record.cases.some((each) => each.invented), false),
    month: orDamaged(() => monthLine(record), null),
    cautions: loadCautions().standing.paragraphs,
  };
};
