import { error, fail, redirect } from '@sveltejs/kit';
import { textOf } from '$lib/rooms/forms/fields';
import { hiddenCaseIds, timesWereSeen } from '$lib/rooms/goals/goal-standing';
import { nextStep } from '$lib/rooms/cases/next-step';
import { listFromFields, rowsFromForm } from '$lib/rooms/lists/list-form';
import { casesOfList, listAnswers, listView, storedBeside } from '$lib/rooms/lists/list-view';
import { procedureOf, type ListRecord } from '$lib/model';
import { loadCautions } from '$lib/server/content';
import { attempt } from '$lib/server/attempt';
import { datedFields } from '$lib/server/date-order';
import { fieldsOf } from '$lib/server/form-fields';
import { changeCases, lastUndo, undoLast } from '$lib/server/last-change';
import { readRecord } from '$lib/server/record';
import { refuseIfStale, revisionOf } from '$lib/server/revision';
import { saidIn } from '$lib/server/said-in';
import type { Actions, PageServerLoad } from './$types';
import { untimedActions } from './untimed-actions.server';

const SAID: Record<string, string> = {
  stored: 'The list is stored.',
  rows: 'The list is stored.',
  times: 'The times are stored.',
  made: 'The list is ready. Fill in its rows; nothing is asked twice.',
  reviewed: 'Your review of the event is stored.',
  removed: 'The event was removed.',
  undone: 'The last change is undone; both are in the history of each case.',
};

export const load: PageServerLoad = async ({ locals, params, url }) => {
  const record = await readRecord(locals.store);
  const list = record.lists.find(({ id }) => id === params.id);
  if (!list) error(404, 'There is no such list in the record.');
  const said = url.searchParams.get('said') ?? '';
  const texts = loadCautions();
  const ids = record.cases.flatMap(({ id, listId }) => (listId === list.id ? [id] : []));
  const undo = await lastUndo(locals.store, record, ids, locals.now);
  return {
    seen: revisionOf(listAnswers(list)),
    view: listView(list, record, hiddenCaseIds(record), locals.now.slice(0, 10)),
    // Offered for the rows just stored, never for an older change of the same list.
    undo:
      undo?.kind === 'offered' && ['rows', 'times', 'undone'].includes(said)
        ? { of: undo.of, cases: undo.cases }
        : null,
    said: saidIn(SAID, url),
    next: ['rows', 'stored', 'times', 'reviewed'].includes(said) ? nextStep(record) : null,
    untimed: record.cases.filter(({ listId, stretches }) => listId === list.id && stretches.length === 0).length,
    texts: { field: texts['event-field'].paragraphs, prompts: texts['event-prompts'] },
  };
};

export const actions = {
  save: async ({ locals, params, request }) => {
    const fields = await datedFields(locals.store, await request.formData());
    const record = await readRecord(locals.store);
    const list = record.lists.find(({ id }) => id === params.id);
    if (!list) error(404, 'There is no such list in the record.');
    const hidden = hiddenCaseIds(record);
    const cases = casesOfList(list, record);
    const rows = rowsFromForm(
      fields,
      cases,
      (one) => procedureOf(record, one.procedureId),
      (one) => timesWereSeen(one, hidden),
      locals.now,
    );
    const main = procedureOf(record, cases[0]?.procedureId ?? record.profile.procedureId);
    const answersIn = (stored: ListRecord) => listFromFields(fields, stored, cases.length, main);
    const answers = answersIn(list);
    const errors = [...rows.errors, ...answers.errors];
    if (errors.length > 0) return fail(400, { errors, values: fields, seen: textOf(fields, 'seen') });

    const sent = (name: string) => textOf(fields, name);
    const listToo = () =>
      locals.store.changeList(list.id, (stored) => {
        refuseIfStale(sent('seen'), listAnswers(stored), 'This list', storedBeside(stored, sent));
        return answersIn(stored).list;
      });
    const differs = revisionOf(answers.list) !== revisionOf(list);
    const { refused } = await attempt('rows', () =>
      changeCases(locals.store, rows.changed, locals.now, () => (differs ? [listToo()] : [])),
    );
    if (refused) {
      const stored = (await locals.store.lists()).find(({ id }) => id === list.id) ?? list;
      return fail(409, { errors: [refused], values: fields, seen: revisionOf(listAnswers(stored)) });
    }
    redirect(303, `/cases/lists/${list.id}?said=${rows.changed.length > 0 ? 'rows' : 'stored'}`);
  },
  /** One step back, of the rows stored last; what was said of the list itself stays. */
  undo: async ({ locals, params, request }) => {
    const of = textOf(fieldsOf(await request.formData()), 'of');
    const record = await readRecord(locals.store);
    const ids = record.cases.flatMap(({ id, listId }) => (listId === params.id ? [id] : []));
    const message = await undoLast(locals.store, record, ids, of, locals.now);
    if (message) return fail(409, { errors: [{ field: 'rows', message }], values: {}, seen: undefined });
    redirect(303, `/cases/lists/${params.id}?said=undone`);
  },
  ...untimedActions,
} satisfies Actions;
