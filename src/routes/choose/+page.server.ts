import { goalsBeside } from '$lib/rooms/choose/step-goals';
import { waitingNote } from '$lib/rooms/choose/waiting-view';
import { readGoalLines } from '$lib/server/after';
import { readChoose } from '$lib/server/choose';
import { readRecord } from '$lib/server/record';
import type { PageServerLoad } from './$types';

export const load: PageServerLoad = async ({ locals, url }) => {
  const record = await readRecord(locals.store);
  const { procedure, room } = await readChoose(record, url.searchParams);
  const timed = new Set(record.cases.map((each) => each.procedureId));
  return {
    room,
    goals: room ? goalsBeside(await readGoalLines(record), procedure.id) : [],
    procedure: procedure.name,
    others: record.procedures
      .filter(({ id }) => id !== procedure.id && timed.has(id))
      .map(({ id, name }) => ({ id, name })),
    chart: `/choose/chart.svg?${new URLSearchParams({ procedure: procedure.id, view: room?.view ?? '' })}`,
    overTime: `/choose/over-time${url.searchParams.has('procedure') ? `?procedure=${procedure.id}` : ''}`,
    waiting: waitingNote(record.cases, procedure) && `/choose/waiting?procedure=${procedure.id}`,
  };
};
