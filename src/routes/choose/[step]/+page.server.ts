import { error } from '@sveltejs/kit';
import { eyeDrawings } from '$lib/charts/eye/eye-drawings.server';
import { goalsOnStep } from '$lib/rooms/choose/step-goals';
import { guidanceOf } from '$lib/rooms/choose/step-view';
import { readGoalLines } from '$lib/server/after';
import { loadCautions, loadGuidance } from '$lib/server/content';
import { readRecord } from '$lib/server/record';
import { readStep } from '$lib/server/step';
import { heldBackWords } from '$lib/words/hidden-until';
import type { PageServerLoad } from './$types';

export const load: PageServerLoad = async ({ locals, params, url }) => {
  const record = await readRecord(locals.store);
  const found = await readStep(record, params.step, url.searchParams);
  if (!found) error(404, 'The procedure has no step of this name.');
  const { procedure, asked, step, heldBack, room, pair } = found;
  const page = guidanceOf(loadGuidance(), procedure, params.step);
  const href = `/checkpoints/${procedure.id}/${params.step}`;
  const query = asked ? `?${new URLSearchParams({ procedure: asked })}` : '';
  return {
    label: step.label,
    heldBack: heldBack > 0 ? heldBackWords(heldBack, 'the running window') : null,
    room,
    goals: goalsOnStep(await readGoalLines(record), procedure.id, step.id),
    pair,
    watch: `/choose/${step.id}/pair${query}`,
    clips: `/choose/${step.id}/clips${query}`,
    drawings: {
      patterns: `/choose/${step.id}/patterns.svg${query}`,
      cases: `/choose/${step.id}/cases.svg${query}`,
      split: `/choose/${step.id}/split.svg?${new URLSearchParams({ ...(asked ? { procedure: asked } : {}), by: room?.split?.by ?? '' })}`,
    },
    guidance: page && {
      ...page,
      scenes: eyeDrawings(
        page.checkpoints.map(({ id }) => id),
        { small: true },
      ),
      href,
    },
    back: `/choose${query}`,
    overTime: `/choose/over-time${query}`,
    guidanceCaution: loadCautions()['guidance-page'].paragraphs,
  };
};
