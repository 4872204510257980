import { error, fail, redirect } from '@sveltejs/kit';
import { caseChoices, reflectionForm } from '$lib/assessment/reflect-view';
import { hiddenCaseIds } from '$lib/assessment/hidden-times';
import { loadCautions, renderOwnMarkdown } from '$lib/server/content';
import { readRecord } from '$lib/server/record';
import { readReflection } from '$lib/server/reflections';
import type { Store } from '$lib/server/storage';
import type { Actions, PageServerLoad } from './$types';

const DRAFT = 'reflection-new';

/** Which cases are written about, by whose goal, and whether their lengths are still hidden. */
async function context(store: Store, caseIds: readonly string[]) {
  const record = await readRecord(store);
  const chosen = record.cases.filter((each) => caseIds.includes(each.id));
  const goal = record.goals.find((each) => each.state === 'running' || each.state === 'paused') ?? null;
  const hiddenIds = hiddenCaseIds(record);
  return {
    chosen,
    goal,
    lists: record.lists,
    procedures: record.procedures,
    hidden: chosen.length > 0 && chosen.every((each) => hiddenIds.has(each.id)),
  };
}

const fieldsOf = (form: FormData) => ({
  saw: String(form.get('saw') ?? ''),
  willTry: String(form.get('willTry') ?? ''),
  tags: String(form.get('tags') ?? ''),
  answers: Object.fromEntries(
    [...form].flatMap(([name, value]) =>
      name.includes(':') && typeof value === 'string' && value ? [[name, value]] : [],
    ),
  ) as Record<string, string>,
  cases: form.getAll('case').map(String),
});
type Fields = ReturnType<typeof fieldsOf>;

const isFields = (value: unknown): value is Fields =>
  typeof value === 'object' && value !== null && 'saw' in value && 'cases' in value && Array.isArray(value.cases);

export const load: PageServerLoad = async ({ locals, url }) => {
  const stored = url.searchParams.get('draft') === 'yes' ? await locals.store.draft(DRAFT) : null;
  const parsed: unknown = stored ? JSON.parse(stored) : null;
  const draft = isFields(parsed) ? parsed : null;
  const caseIds = draft?.cases ?? url.searchParams.getAll('case');
  const { chosen, lists, goal, procedures, hidden } = await context(locals.store, caseIds);
  if (chosen.length < caseIds.length) error(404, 'One of these cases is no longer in the record.');
  return {
    cases: caseChoices(chosen, lists, [], 60).map(({ id, code }) => ({ id, code })),
    form: reflectionForm(goal, procedures),
    hidden,
    values: draft ?? { saw: '', willTry: '', tags: '', answers: {}, cases: caseIds },
    notice: loadCautions().reflection.paragraphs,
  };
};

export const actions = {
  store: async ({ locals, request }) => {
    const form = await request.formData();
    const { input, errors, looksLike } = readReflection(form);
    const values = fieldsOf(form);
    if (errors.length > 0) return fail(400, { errors, values, looksLike: [] });
    if (looksLike.length > 0 && form.get('nobody') !== 'yes') return fail(400, { errors: [], values, looksLike });
    const { chosen, goal, hidden } = await context(locals.store, values.cases);
    await locals.store.saveReflection({
      at: locals.now,
      caseIds: chosen.map((each) => each.id),
      goalId: goal?.id ?? null,
      stepId: goal?.stepId ?? null,
      ...input,
      beforeLengths: hidden,
      history: [],
      invented: chosen.length > 0 && chosen.every((each) => each.invented),
    });
    await locals.store.dropDraft(DRAFT);
    redirect(303, '/reflect?said=stored');
  },
  preview: async ({ request }) => {
    const values = fieldsOf(await request.formData());
    return {
      errors: [],
      values,
      looksLike: [],
      preview: { saw: renderOwnMarkdown(values.saw), willTry: renderOwnMarkdown(values.willTry) },
    };
  },
  draft: async ({ locals, request }) => {
    const values = fieldsOf(await request.formData());
    await locals.store.saveDraft(DRAFT, JSON.stringify(values));
    return { errors: [], values, looksLike: [], drafted: true };
  },
} satisfies Actions;
