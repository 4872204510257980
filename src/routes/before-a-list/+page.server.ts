import { redirect } from '@sveltejs/kit';
import { noteViews } from '$lib/rooms/before-a-list/note-view';
import { loadCautions } from '$lib/server/content';
import { proceduresOf } from '$lib/server/procedures';
import type { Actions, PageServerLoad } from './$types';

export const load: PageServerLoad = async ({ locals }) => {
  const cautions = loadCautions();
  const [goals, procedures, profile] = await Promise.all([
    locals.store.goals(),
    proceduresOf(locals.store),
    locals.store.profile(),
  ]);
  return {
    large: profile.largeType,
    notes: noteViews(goals, procedures, {
      standing: cautions.standing.paragraphs,
      foot: cautions['note-for-the-list'].paragraphs,
      generalLead: cautions['general-note'].paragraphs[0] ?? '',
      generalPoints: cautions['general-note'].points,
      rupture: cautions['capsule-rupture'].paragraphs,
    }),
  };
};

export const actions = {
  type: async ({ locals, request }) => {
    const large = (await request.formData()).get('large') === 'yes';
    await locals.store.changeProfile((profile) => ({ ...profile, largeType: large }));
    redirect(303, '/before-a-list');
  },
} satisfies Actions;
