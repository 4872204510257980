import { readOverTime } from '$lib/server/over-time';
import { readRecord } from '$lib/server/record';
import type { PageServerLoad } from './$types';

export const load: PageServerLoad = async ({ locals, url }) => {
  const { procedure, named, room } = await readOverTime(await readRecord(locals.store), url.searchParams);
  return {
    room,
    procedure: { id: procedure.id, name: procedure.name, named },
    drawing: `/choose/over-time/ratios.svg?${new URLSearchParams({ ...room.asked, procedure: procedure.id })}`,
    back: `/choose${named ? `?procedure=${procedure.id}` : ''}`,
  };
};
