import { monthLine } from '$lib/rooms/now/month-line';
import { loadCautions } from '$lib/server/content';
import { readRecord } from '$lib/server/record';
import { orAtFault } from '$lib/server/say-damage';
import type { LayoutServerLoad } from './$types';

export const load: LayoutServerLoad = async ({ locals }) => {
  const cautions = loadCautions().standing.paragraphs;
  if (locals.signedIn === false)
    return { door: 'outside' as const, damaged: [], invented: false, month: null, cautions };
  const [record, damaged] = await Promise.all([readRecord(locals.store), locals.store.damaged()]);
  return {
    /** `open`: nobody has to sign in. */
    door: locals.access?.asks ? ('inside' as const) : ('open' as const),
    damaged: damaged.map(({ holds }) => holds),
    invented: orAtFault(() => record.cases.some((each) => each.invented), false),
    month: orAtFault(() => monthLine(record), null),
    cautions,
  };
};
