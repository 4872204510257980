import { attempt } from '$lib/server/attempt';
import { error, fail, redirect } from '@sveltejs/kit';
import { eyeDrawings } from '$lib/charts/eye/eye-drawings.server';
import { cardsOfStep } from '$lib/rooms/checkpoints/cards-of-step';
import {
  loadCautions,
  loadEyeCards,
  loadGuidance,
  loadRehearsals,
  renderLine,
  renderOwnMarkdown,
  renderShortRead,
} from '$lib/server/content';
import type { Guidance } from '$lib/rules/types';
import { proceduresOf } from '$lib/server/procedures';
import { durationIn } from '$lib/words';
import type { Actions, PageServerLoad } from './$types';

export const load: PageServerLoad = async ({ locals, params, url }) => {
  const [procedures, profile] = await Promise.all([proceduresOf(locals.store), locals.store.profile()]);
  const procedure = procedures.find((each) => each.id === params.procedure);
  const step = procedure?.steps.find((each) => each.id === params.step);
  if (!procedure || !step) error(404, 'No such step in this procedure.');
  const page = loadGuidance().find((each) => each.procedureId === procedure.id && each.step === step.id) ?? null;
  const cautions = loadCautions();
  return {
    procedure: { id: procedure.id, name: procedure.name },
    step: { id: step.id, label: step.label, starts: step.starts, ends: step.ends, notToShorten: step.notToShorten },
    kept: step.protectedParts.map((part) => part.label),
    page: page && withHtml(page),
    scenes: eyeDrawings(page?.checkpoints.map(({ id }) => id) ?? []),
    cards: page ? cardsOfStep(page, { eyes: loadEyeCards(), rehearsals: loadRehearsals() }) : null,
    published: page?.sources.some((source) => source.kind !== 'common-practice')
      ? cautions['published-figures'].paragraphs
      : [],
    earlier: (page?.earlier ?? step.earlier).flatMap((id) => {
      const found = procedure.steps.find((each) => each.id === id);
      return found ? [{ id, label: found.label }] : [];
    }),
    own: profile.ownCheckpoints
      .filter((each) => each.procedureId === procedure.id && each.stepId === step.id)
      .map((each) => ({ id: each.id, look: each.look, html: renderOwnMarkdown(each.text) })),
    caution: cautions['guidance-page'].paragraphs,
    said: url.searchParams.get('said'),
  };
};

/** The page with each line as HTML, source marks linked to the list at its foot. */
function withHtml(page: Guidance) {
  const line = (text: string) => renderLine(text, page.marked);
  return {
    aim: line(page.aim),
    checkpoints: page.checkpoints.map(({ id, look, why }) => ({ id, look: line(look), why: line(why) })),
    stop: page.stop.map(line),
    protectedParts: page.protectedParts.map(line),
    reminders: page.reminders.map(line),
    drills: page.drills.map((drill) => ({ ...drill, do: line(drill.do), passed: line(drill.passed) })),
    body: renderShortRead(page.body),
    sources: page.sources,
    worksheet: page.worksheet,
  };
}

export const actions = {
  add: async ({ locals, params, request }) => {
    const form = await request.formData();
    const values = { look: String(form.get('look') ?? '').trim(), text: String(form.get('text') ?? '').trim() };
    const errors: { field: string; message: string }[] = [];
    const duration = durationIn(values.look);
    if (values.look === '')
      errors.push({ field: 'look', message: 'Say what to look for: one line, visible on the recording.' });
    else if (values.look.length > 200)
      errors.push({
        field: 'look',
        message: 'Keep what to look for under 200 characters; the rest can stand below it.',
      });
    else if (duration)
      errors.push({
        field: 'look',
        message: `"${duration}" is a time, and this line can stand on the note for the list. ${loadCautions()['note-durations'].paragraphs[0] ?? ''}`,
      });
    if (values.text.length > 5000) errors.push({ field: 'text', message: 'Keep the text under 5,000 characters.' });
    if (errors.length > 0) return fail(400, { errors, values });

    const { refused } = await attempt('look', () =>
      locals.store.changeProfile((profile) => {
        const number =
          1 + Math.max(0, ...profile.ownCheckpoints.map((each) => Number(each.id.replace(/\D/g, '')) || 0));
        const own = {
          id: `own-${number}`,
          procedureId: params.procedure,
          stepId: params.step,
          look: values.look,
          text: values.text,
          at: locals.now,
        };
        return { ...profile, ownCheckpoints: [...profile.ownCheckpoints, own] };
      }),
    );
    if (refused) return fail(400, { errors: [refused], values });
    redirect(303, `/checkpoints/${params.procedure}/${params.step}?said=added#own`);
  },
  remove: async ({ locals, params, request }) => {
    const id = String((await request.formData()).get('id') ?? '');
    const { refused } = await attempt('own', () =>
      locals.store.changeProfile((profile) => ({
        ...profile,
        ownCheckpoints: profile.ownCheckpoints.filter((each) => each.id !== id),
      })),
    );
    if (refused) return fail(409, { errors: [refused], values: { look: '', text: '' } });
    redirect(303, `/checkpoints/${params.procedure}/${params.step}?said=removed#own`);
  },
} satisfies Actions;
