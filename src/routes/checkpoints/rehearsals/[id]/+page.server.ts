import { error } from '@sveltejs/kit';
import { eyeDrawing } from '$lib/charts/eye/eye-drawings.server';
import { loadCautions, loadRehearsals, renderLine, renderShortRead } from '$lib/server/content';
import type { PageServerLoad } from './$types';

export const load: PageServerLoad = ({ params }) => {
  const card = loadRehearsals().find(({ id }) => id === params.id);
  if (!card) error(404, 'No such rehearsal.');
  const cautions = loadCautions();
  const line = (text: string) => renderLine(text, card.marked);
  return {
    title: card.title,
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
