import { error, fail, redirect } from '@sveltejs/kit';
import { hiddenCaseIds } from '$lib/rooms/goals/hidden-times';
import { attempt } from '$lib/server/attempt';
import { goalOfReview } from '$lib/rooms/goals/waiting-for-review';
import { reflectionForm, resultKnown } from '$lib/rooms/reflect/reflect-view';
import { eyeDrawings } from '$lib/charts/eye/eye-drawings.server';
import { loadCautions } from '$lib/server/content';
import { readRecord } from '$lib/server/record';
import {
  keepReflectionDraft,
  reflectionDraft,
  reflectionFields,
  reflectionPreview,
  notStored,
  reflectionToStore,
} from '$lib/server/reflections';
import type { Store } from '$lib/server/storage';
import type { Actions, PageServerLoad } from './$types';

const DRAFT = 'reflection-new';
/** Beside their sentence, which says what they show. */
const SMALL = { small: true, decorative: true };

/** Which cases are written about, by whose goal, and whether their times are still hidden. */
async function context(store: Store, caseIds: readonly string[]) {
  const record = await readRecord(store);
  const chosen = record.cases.filter((each) => caseIds.includes(each.id));
  const goal = goalOfReview(record);
  const hiddenIds = hiddenCaseIds(record);
  return {
    chosen,
    goal,
    resultKnown: resultKnown(record, goal, caseIds),
    procedures: record.procedures,
    hidden: chosen.length > 0 && chosen.every((each) => hiddenIds.has(each.id)),
  };
}

export const load: PageServerLoad = async ({ locals, url }) => {
  const kept = await reflectionDraft(locals.store, DRAFT);
  const draft = url.searchParams.get('draft') === 'yes' ? kept : null;
  const caseIds = draft?.cases ?? url.searchParams.getAll('case');
  const { chosen, goal, procedures, hidden } = await context(locals.store, caseIds);
  if (chosen.length < caseIds.length) error(404, 'One of these cases is no longer in the record.');
  const form = reflectionForm(goal, procedures);
  return {
    cases: chosen.map(({ id, code }) => ({ id, code })),
    form,
    drawings: eyeDrawings(chosen.length > 0 ? form.checkpoints.map(({ id }) => id) : [], SMALL),
    hidden,
    values: draft ?? { saw: '', willTry: '', tags: '', answers: {}, cases: caseIds },
    /** Another text is kept, and one draft is all there is room for. */
    otherDraft: kept !== null && draft === null,
    notice: loadCautions().reflection.paragraphs,
  };
};

export const actions = {
  store: async ({ locals, request }) => {
    const form = await request.formData();
    const { input, refused } = reflectionToStore(form, locals.persons?.none);
    if (refused) return fail(400, refused);
    const { cases } = reflectionFields(form);
    const { chosen, goal, hidden, resultKnown: known } = await context(locals.store, cases);
    const stored = await attempt('saw', () =>
      locals.store.saveReflection({
        at: locals.now,
        caseIds: chosen.map((each) => each.id),
        goalId: goal?.id ?? null,
        stepId: goal?.stepId ?? null,
        ...input,
        beforeLengths: hidden,
        ...(known ? { resultKnown: true as const } : {}),
        history: [],
        invented: chosen.length > 0 && chosen.every((each) => each.invented),
      }),
    );
    if (stored.refused) return fail(409, notStored(form, stored.refused));
    // A draft about other cases is another text, and stays.
    const kept = await reflectionDraft(locals.store, DRAFT);
    if (kept?.cases.join(' ') === cases.join(' ')) await attempt('saw', () => locals.store.dropDraft(DRAFT));
    redirect(303, '/reflect?said=stored');
  },
  preview: async ({ request }) => reflectionPreview(await request.formData()),
  draft: async ({ locals, request }) => keepReflectionDraft(locals.store, DRAFT, await request.formData()),
} satisfies Actions;
