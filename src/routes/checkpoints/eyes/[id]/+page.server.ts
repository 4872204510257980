import { error } from '@sveltejs/kit';
import { eyeDrawing } from '$lib/charts/eye/eye-drawings.server';
import { setAside } from '$lib/rooms/checkpoints/cards-view';
import { loadCautions, loadEyeCards, loadGuidance, renderLine, renderShortRead } from '$lib/server/content';
import type { PageServerLoad } from './$types';

export const load: PageServerLoad = ({ params }) => {
  const card = loadEyeCards().find(({ id }) => id === params.id);
  if (!card) error(404, 'No such eye card.');
  const cautions = loadCautions();
  const line = (text: string) => renderLine(text, card.marked);
  return {
    title: card.title,
    ready: card.ready.map(line),
    checkpoints: card.checkpoints.map(({ id, look, why }) => ({ id, look: line(look), why: line(why) })),
    never: line(card.never),
    stop: line(card.stop),
    body: renderShortRead(card.body),
    setAside: setAside(card, loadGuidance()),
    sources: card.sources,
    drawing: eyeDrawing(`eye-${card.id}`),
    published: card.sources.some(({ kind }) => kind !== 'common-practice')
      ? cautions['published-figures'].paragraphs
      : [],
    caution: cautions['guidance-page'].paragraphs,
  };
};
