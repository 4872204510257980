import { error, fail, redirect } from '@sveltejs/kit';
import { counted } from '$lib/format';
import type { Reflection } from '$lib/model';
import { textOf } from '$lib/rooms/forms/fields';
import { hiddenCaseIds } from '$lib/rooms/goals/hidden-times';
import { attempt } from '$lib/server/attempt';
import { changedReflection, reflectionForm, resultKnown } from '$lib/rooms/reflect/reflect-view';
import { instantWords } from '$lib/rooms/forms/when-words';
import { eyeDrawings } from '$lib/charts/eye/eye-drawings.server';
import { loadCautions, renderOwnMarkdown } from '$lib/server/content';
import { fieldsOf } from '$lib/server/form-fields';
import { readRecord } from '$lib/server/record';
import {
  keepReflectionDraft,
  reflectionDraft,
  reflectionPreview,
  notStored,
  reflectionToStore,
  type ReflectionFields,
} from '$lib/server/reflections';
import { StaleVersionError, type Store } from '$lib/server/storage';
import type { Actions, PageServerLoad } from './$types';

const draftOf = (id: string) => `reflection-change:${id}`;

async function context(store: Store, id: string) {
  const record = await readRecord(store);
  const reflection = record.reflections.find((each) => each.id === id);
  if (!reflection) error(404, 'No such note.');
  const hidden = hiddenCaseIds(record);
  return { record, reflection, seen: !reflection.caseIds.every((each) => hidden.has(each)) };
}

/** A stored note as the form that changes it. */
const storedFields = (reflection: Reflection): ReflectionFields => ({
  saw: reflection.saw,
  willTry: reflection.willTry,
  tags: reflection.tags.join(', '),
  answers: Object.fromEntries([
    ...reflection.answers.map((each) => [`answer:${each.caseId}:${each.checkpointId}`, each.answer]),
    ...reflection.protectedSeen.map((each) => [
      `kept:${each.caseId}:${each.protectedPartId}`,
      each.seen ? 'yes' : 'no',
    ]),
  ]),
  cases: reflection.caseIds,
});

/** The version that the form was filled from; a page that came back with it still means that one. */
const versionIn = (form: FormData): number | null => Number(form.get('version')) || null;

/** The texts of a note as they are stored, to stand beside what was typed. */
const textsNow = ({ saw, willTry, answers }: Reflection): string =>
  [saw, willTry].map((text) => (text === '' ? 'nothing' : `"${text}"`)).join(' and ') +
  (answers.length > 0 ? `, with ${counted(answers.length, 'answer')}` : '');

export const load: PageServerLoad = async ({ locals, params, url }) => {
  const { record, reflection, seen } = await context(locals.store, params.id);
  const kept = await reflectionDraft(locals.store, draftOf(params.id));
  const draft = url.searchParams.get('draft') === 'yes' ? kept : null;
  const cautions = loadCautions();
  const answered = reflection.answers.length > 0;
  const form = reflectionForm(record.goals.find((each) => each.id === reflection.goalId) ?? null, record.procedures);
  return {
    day: instantWords(reflection.at),
    cases: reflection.caseIds.map((id) => ({
      id,
      code: record.cases.find((each) => each.id === id)?.code ?? 'erased',
    })),
    form,
    drawings: eyeDrawings(
      form.checkpoints.map(({ id }) => id),
      { small: true, decorative: true },
    ),
    answers: !answered ? null : !reflection.beforeLengths ? 'after' : seen ? 'before, seen since' : 'before',
    values: draft ?? storedFields(reflection),
    version: reflection.version,
    leaves: reflection.answers.length + reflection.protectedSeen.length,
    otherDraft: kept !== null && draft === null,
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
    const { input, refused } = reflectionToStore(form, locals.persons?.none);
    if (refused) return fail(400, { ...refused, version: versionIn(form) });
    const { record, reflection, seen } = await context(locals.store, params.id);
    const goal = record.goals.find(({ id }) => id === reflection.goalId) ?? null;
    const known = resultKnown(record, goal, reflection.caseIds);
    const version = versionIn(form) ?? reflection.version;
    const stored = await attempt('saw', () => {
      if (version !== reflection.version) throw new StaleVersionError('This note', textsNow(reflection));
      return locals.store.updateReflection(changedReflection(reflection, input, seen, locals.now, known));
    });
    if (stored.refused) return fail(409, { ...notStored(form, stored.refused), version: reflection.version });
    await attempt('saw', () => locals.store.dropDraft(draftOf(params.id))); // stored by now, whatever becomes of the draft
    redirect(303, `/reflect/${params.id}?said=stored`);
  },
  preview: async ({ request }) => {
    const form = await request.formData();
    return { ...reflectionPreview(form), version: versionIn(form) };
  },
  remove: async ({ locals, params, request }) => {
    const version = Number(textOf(fieldsOf(await request.formData()), 'version'));
    const { reflection } = await context(locals.store, params.id);
    const { refused } = await attempt('remove', () =>
      locals.store.removeReflection(reflection.id, version, locals.now),
    );
    if (refused) return fail(409, { errors: [refused], values: storedFields(reflection), looksLike: [] });
    redirect(303, '/reflect?said=removed');
  },
  draft: async ({ locals, params, request }) => {
    const form = await request.formData();
    return { ...(await keepReflectionDraft(locals.store, draftOf(params.id), form)), version: versionIn(form) };
  },
} satisfies Actions;
