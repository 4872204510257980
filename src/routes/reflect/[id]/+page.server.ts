import { error, fail, redirect } from '@sveltejs/kit';
import { reflectionForm } from '$lib/assessment/reflect-view';
import { instantWords } from '$lib/assessment/when-words';
import { loadCautions, renderOwnMarkdown } from '$lib/server/content';
import { proceduresOf } from '$lib/server/procedures';
import { readReflection } from '$lib/server/reflections';
import type { Actions, PageServerLoad } from './$types';

export const load: PageServerLoad = async ({ locals, params, url }) => {
  const [reflections, cases, goals, procedures] = await Promise.all([
    locals.store.reflections(),
    locals.store.cases(),
    locals.store.goals(),
    proceduresOf(locals.store),
  ]);
  const reflection = reflections.find((each) => each.id === params.id);
  if (!reflection) error(404, 'No such note.');
  const cautions = loadCautions();
  return {
    day: instantWords(reflection.at),
    cases: reflection.caseIds.map((id) => ({ id, code: cases.find((each) => each.id === id)?.code ?? 'erased' })),
    form: reflectionForm(goals.find((each) => each.id === reflection.goalId) ?? null, procedures),
    beforeLengths: reflection.beforeLengths,
    answered: reflection.answers.length > 0,
    values: {
      saw: reflection.saw,
      willTry: reflection.willTry,
      tags: reflection.tags.join(', '),
      answers: Object.fromEntries([
        ...reflection.answers.map((each) => [`answer:${each.caseId}:${each.checkpointId}`, each.answer]),
        ...reflection.keptSeen.map((each) => [`kept:${each.caseId}:${each.keptPartId}`, each.seen ? 'yes' : 'no']),
      ]) as Record<string, string>,
    },
    history: reflection.history.map((each) => ({
      day: instantWords(each.at),
      saw: renderOwnMarkdown(each.saw),
      willTry: renderOwnMarkdown(each.willTry),
    })),
    notice: cautions.reflection.paragraphs,
    historyNotice: cautions['editing-history'].paragraphs,
    said: url.searchParams.get('said'),
  };
};

export const actions = {
  store: async ({ locals, params, request }) => {
    const form = await request.formData();
    const { input, errors, looksLike } = readReflection(form);
    const values = {
      saw: input.saw,
      willTry: input.willTry,
      tags: input.tags.join(', '),
      answers: Object.fromEntries(
        [...form].flatMap(([name, value]) => (name.includes(':') ? [[name, String(value)]] : [])),
      ) as Record<string, string>,
    };
    if (errors.length > 0) return fail(400, { errors, values, looksLike: [] });
    if (looksLike.length > 0 && form.get('nobody') !== 'yes') return fail(400, { errors: [], values, looksLike });
    const before = (await locals.store.reflections()).find((each) => each.id === params.id);
    if (!before) error(404, 'No such note.');
    const textChanged = before.saw !== input.saw || before.willTry !== input.willTry;
    await locals.store.updateReflection({
      ...before,
      ...input,
      history: textChanged
        ? [...before.history, { at: locals.now, saw: before.saw, willTry: before.willTry }]
        : before.history,
    });
    redirect(303, `/reflect/${params.id}?said=stored`);
  },
} satisfies Actions;
