import { fail, redirect } from '@sveltejs/kit';
import { attempt } from '$lib/server/attempt';
import { eyeDrawing } from '$lib/charts/eye/eye-drawings.server';
import { noteViews } from '$lib/rooms/before-a-list/note-view';
import { cardsToAsk } from '$lib/rooms/before-a-list/eyes-on-list';
import { breakSinceLatest, rehearsalOfTheMonth } from '$lib/rules';
import { loadCautions, loadEyeCards, loadRehearsals } from '$lib/server/content';
import type { Goal } from '$lib/model';
import { proceduresOf } from '$lib/server/procedures';
import type { Actions, PageServerLoad } from './$types';

/** A small drawing beside each checkpoint of a goal, in their order. */
const scenesOf = (goal: Goal | undefined): (string | null)[] =>
  (goal?.checkpoints ?? []).map(({ id }) => eyeDrawing(id, { small: true, key: goal?.id }));

export const load: PageServerLoad = async ({ locals, url }) => {
  const cautions = loadCautions();
  const [goals, lists, procedures, profile] = await Promise.all([
    locals.store.goals(),
    locals.store.lists(),
    proceduresOf(locals.store),
    locals.store.profile(),
  ]);
  const ask = cardsToAsk(loadEyeCards(), goals, profile.procedureId);
  const chosen = new Set(url.searchParams.getAll('eye'));
  const onList = ask.filter(({ id }) => chosen.has(id));
  const month = rehearsalOfTheMonth(loadRehearsals(), profile.procedureId, profile.rehearsed ?? {}, locals.now);
  const weeks = breakSinceLatest(lists, locals.now);
  const [running] = goals.filter(({ state }) => state === 'running');
  return {
    pause:
      weeks === null
        ? null
        : {
            weeks,
            href: running ? `/checkpoints/${running.procedureId}/${running.stepId}/eyes-closed` : '/checkpoints',
          },
    eyes: ask.map(({ id, title }) => ({ id, title, on: chosen.has(id) })),
    cards: onList.map(({ id, title, ready, checkpoints, never, stop }) => ({
      id,
      title,
      ready,
      checkpoints: checkpoints.map(({ look }) => look),
      never,
      stop,
    })),
    caution: [...cautions.standing.paragraphs, ...cautions['note-for-the-list'].paragraphs],
    large: profile.largeType,
    notes: noteViews(
      goals,
      procedures,
      {
        standing: cautions.standing.paragraphs,
        foot: cautions['note-for-the-list'].paragraphs,
        generalLead: cautions['general-note'].paragraphs[0] ?? '',
        generalPoints: cautions['general-note'].points,
        rupture: cautions['capsule-rupture'].paragraphs,
      },
      onList,
      month && { title: month.title, href: `/checkpoints/rehearsals/${month.id}` },
    ).map((note) => ({
      ...note,
      scenes: scenesOf(goals.find(({ id }) => id === note.goalId)),
    })),
  };
};

export const actions = {
  type: async ({ locals, request }) => {
    const large = (await request.formData()).get('large') === 'yes';
    const { refused } = await attempt('main', () =>
      locals.store.changeProfile((profile) => ({ ...profile, largeType: large })),
    );
    if (refused) return fail(409, { errors: [refused] });
    redirect(303, '/before-a-list');
  },
} satisfies Actions;
