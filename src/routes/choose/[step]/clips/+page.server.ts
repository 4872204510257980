import { error } from '@sveltejs/kit';
import { readingOf } from '$lib/recording';
import { clipsOf } from '$lib/rooms/choose/clip-list';
import { guidanceOf } from '$lib/rooms/choose/step-view';
import { clipList } from '$lib/server/clips';
import { loadCautions, loadGuidance } from '$lib/server/content';
import { readRecord } from '$lib/server/record';
import type { PageServerLoad } from './$types';

export const load: PageServerLoad = async ({ locals, params, url }) => {
  const list = clipList(await readRecord(locals.store), params.step, url.searchParams);
  if (!list) error(404, 'The procedure has no step of this name.');
  const { procedure, step, offered, chosen, checkpoint } = list;
  const query = new URLSearchParams(url.searchParams);
  return {
    step: { id: step.id, label: step.label },
    procedureId: procedure.id,
    offered: offered.map(({ id, code }) => ({ id, code, chosen: chosen.some((one) => one.id === id) })),
    looks: (guidanceOf(loadGuidance(), procedure, step.id)?.checkpoints ?? []).map(({ look }) => look),
    look: checkpoint,
    rows: clipsOf(chosen, step, checkpoint).map(({ code, from, to }) => [code, readingOf(from, 1), readingOf(to, 1)]),
    csv: `/choose/${step.id}/clips/clips.csv?${query}`,
    vtt: chosen.map(({ id, code }) => ({ code, href: `/choose/${step.id}/clips/${id}.vtt?${query}` })),
    codes: loadCautions().codes.paragraphs,
  };
};
