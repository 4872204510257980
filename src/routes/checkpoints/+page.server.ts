import { eyeDrawing } from '$lib/charts/eye/eye-drawings.server';
import { cardRows } from '$lib/rooms/checkpoints/cards-view';
import { searchGuidance, stepRows, type StepRow } from '$lib/rooms/checkpoints/checkpoints-view';
import { loadCautions, loadEyeCards, loadGuidance, loadRehearsals } from '$lib/server/content';
import { proceduresOf } from '$lib/server/procedures';
import type { PageServerLoad } from './$types';

export const load: PageServerLoad = async ({ locals, url }) => {
  const [procedures, profile] = await Promise.all([proceduresOf(locals.store), locals.store.profile()]);
  const wanted = url.searchParams.get('procedure') ?? profile.procedureId;
  const procedure = procedures.find((each) => each.id === wanted) ?? procedures[0];
  const query = (url.searchParams.get('q') ?? '').slice(0, 100);
  return {
    procedures: procedures.map(({ id, name }) => ({ id, name })),
    procedureId: procedure?.id ?? '',
    query,
    rows: procedure ? stepRows(procedure, loadGuidance(), profile.ownCheckpoints).map(withDrawing) : [],
    hits: procedure && query ? searchGuidance(query, procedure, loadGuidance(), profile.ownCheckpoints) : [],
    cards: cardRows({ eyes: loadEyeCards(), rehearsals: loadRehearsals() }, procedure?.id ?? ''),
    caution: loadCautions()['guidance-page'].paragraphs,
  };
};

/** A step beside the first of its checkpoints that is drawn: `null` where none is. */
function withDrawing(row: StepRow): StepRow & { svg: string | null } {
  const page = loadGuidance().find(({ step, procedureId }) => row.href === `/checkpoints/${procedureId}/${step}`);
  const drawn = (page?.checkpoints ?? []).flatMap(({ id }) => eyeDrawing(id, { small: true, decorative: true }) ?? []);
  return { ...row, svg: drawn[0] ?? null };
}
