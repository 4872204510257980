import { error, fail, redirect } from '@sveltejs/kit';
import { attempt } from '$lib/server/attempt';
import { eyeDrawing } from '$lib/charts/eye/eye-drawings.server';
import { loadCautions, loadRehearsals, renderLine, renderShortRead } from '$lib/server/content';
import { instantWords } from '$lib/rooms/forms/when-words';
import type { Actions, PageServerLoad } from './$types';

export const load: PageServerLoad = async ({ locals, params }) => {
  const card = loadRehearsals().find(({ id }) => id === params.id);
  if (!card) error(404, 'No such rehearsal.');
  const last = (await locals.store.profile()).rehearsed?.[card.id];
  const cautions = loadCautions();
  const line = (text: string) => renderLine(text, card.marked);
  return {
    title: card.title,
    last: last ? instantWords(last) : null,
    lead: cautions.rehearsal.paragraphs,
    first: card.first.map(line),
    actions: card.actions.map(line),
    never: card.never.map(line),
    call: line(card.call),
    open: card.open.map(line),
    body: renderShortRead(card.body),
    sources: card.sources,
    drawing: eyeDrawing(`rehearsal-${card.id}`),
    published: card.sources.some(({ kind }) => kind !== 'common-practice')
      ? cautions['published-figures'].paragraphs
      : [],
    caution: cautions['guidance-page'].paragraphs,
  };
};

export const actions = {
  said: async ({ locals, params }) => {
    const { id } = params;
    if (!loadRehearsals().some((each) => each.id === id)) error(404, 'No such rehearsal.');
    const { refused } = await attempt('said', () =>
      locals.store.changeProfile((profile) => ({ ...profile, rehearsed: { ...profile.rehearsed, [id]: locals.now } })),
    );
    if (refused) return fail(409, { errors: [refused] });
    redirect(303, `/checkpoints/rehearsals/${id}#said`);
  },
} satisfies Actions;
