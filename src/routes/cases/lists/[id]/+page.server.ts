import { error, fail, redirect } from '@sveltejs/kit';
import { textOf } from '$lib/rooms/forms/fields';
import { hiddenCaseIds, timesWereSeen } from '$lib/rooms/goals/hidden-times';
import { listChoices } from '$lib/rooms/cases/new-case-view';
import { nextStep } from '$lib/rooms/cases/next-step';
import { movedFromForm } from '$lib/rooms/cases/place-of-case';
import { listFromFields, rowsFromForm } from '$lib/rooms/lists/list-form';
import type { CaseView } from '$lib/rooms/cases/case-view';
import { storedNow } from '$lib/rooms/cases/stored-now';
import { casesOfList, listAnswers, listView, storedBeside } from '$lib/rooms/lists/list-view';
import { listTitle } from '$lib/rooms/forms/when-words';
import { procedureOf, type ListRecord, type SurgeonRecord } from '$lib/model';
import { loadCautions } from '$lib/server/content';
import { datedFields } from '$lib/server/date-order';
import { fieldsOf } from '$lib/server/form-fields';
import { changeCases, lastUndo, undoLast } from '$lib/server/last-change';
import { readRecord } from '$lib/server/record';
import { refuseIfStale, revisionOf } from '$lib/server/revision';
import { saidIn } from '$lib/server/said-in';
import { changedUnlessStale } from '$lib/server/stale-cases';
import { newList } from '$lib/server/typed-case';
import type { Actions, PageServerLoad } from './$types';
import { untimedActions } from './untimed-actions.server';

const SAID: Record<string, string> = {
  stored: 'The list is stored.',
  rows: 'The list is stored.',
  times: 'The times are stored.',
  made: 'The list is ready. Fill in its rows; nothing is asked twice.',
  reviewed: 'Your review of the event is stored.',
  removed: 'The event was removed.',
  moved: 'The cases are moved to another list.',
  undone: 'The last change is undone; both are in the history of each case.',
};

const LISTS_OFFERED = 300;

const versionOf = (id: string) => `${id}.version`;
/** What a row of the form replaces. */
const ROW_NOW = (view: CaseView) =>
  (['facts', 'hands', 'events'] as const).map((part) => storedNow(part, view)).join('; ');
/** The list a case lies in, where it is not the one shown. */
function listOf({ cases, lists }: SurgeonRecord, caseId: string | null, shown: string) {
  const one = cases.find(({ id }) => id === caseId);
  const list = lists.find(({ id }) => id === one?.listId && id !== shown);
  return list ? { href: `/cases/lists/${list.id}`, title: listTitle(list) } : null;
}

export const load: PageServerLoad = async ({ locals, params, url }) => {
  const record = await readRecord(locals.store);
  const list = record.lists.find(({ id }) => id === params.id);
  if (!list) error(404, 'There is no such list in the record.');
  const said = url.searchParams.get('said') ?? '';
  const texts = loadCautions();
  const here = record.cases.filter(({ listId }) => listId === list.id);
  const ids = [...here.map(({ id }) => id), ...(said === 'moved' ? url.searchParams.getAll('case') : [])];
  const undo = await lastUndo(locals.store, record, ids, locals.now);
  return {
    seen: revisionOf(listAnswers(list)),
    view: listView(list, record, hiddenCaseIds(record), locals.now.slice(0, 10)),
    // Offered for the rows just stored, never for an older change of the same list.
    undo:
      undo?.kind === 'offered' && ['rows', 'times', 'moved', 'undone'].includes(said)
        ? { of: undo.of, cases: undo.cases }
        : null,
    said: saidIn(SAID, url),
    next: ['rows', 'stored', 'times', 'reviewed', 'moved', 'undone'].includes(said) ? nextStep(record) : null,
    onto: said === 'moved' ? listOf(record, url.searchParams.get('case'), list.id) : null,
    untimed: record.cases.filter(({ listId, stretches }) => listId === list.id && stretches.length === 0).length,
    move: {
      cases: here.map(({ id, code, version }) => ({ id, code, version })),
      lists: listChoices(record, LISTS_OFFERED).filter(({ value }) => value !== list.id),
    },
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
    const not = await changedUnlessStale(
      { store: locals.store, fields, field: 'rows' },
      rows.changed.map((each) => each.case),
      ROW_NOW,
      versionOf,
      () => changeCases(locals.store, rows.changed, locals.now, () => (differs ? [listToo()] : [])),
    );
    if (not) {
      const stored = (await locals.store.lists()).find(({ id }) => id === list.id) ?? list;
      return fail(409, { errors: [not.error], values: not.fields, seen: revisionOf(listAnswers(stored)) });
    }
    redirect(303, `/cases/lists/${list.id}?said=${rows.changed.length > 0 ? 'rows' : 'stored'}`);
  },
  /** Cases entered on the wrong list go to another, perhaps a new one. */
  move: async ({ locals, params, request }) => {
    const fields = await datedFields(locals.store, await request.formData());
    const record = await readRecord(locals.store);
    const list = record.lists.find(({ id }) => id === params.id);
    if (!list) error(404, 'There is no such list in the record.');
    const { changes, onto, errors } = movedFromForm(fields, list, record);
    const section = 'move' as const;
    if (errors.length > 0) return fail(400, { section, errors, values: fields });
    const made = onto ? newList(onto.label, onto.when) : undefined;
    const not = await changedUnlessStale(
      { store: locals.store, fields, field: 'move' },
      changes.map((each) => each.case),
      (view) => storedNow('place', view),
      versionOf,
      () => changeCases(locals.store, changes, locals.now, undefined, made),
    );
    if (not) return fail(409, { section, errors: [not.error], values: not.fields });
    const moved = changes.map(({ case: { id } }) => `&case=${id}`).join('');
    redirect(303, `/cases/lists/${list.id}?said=moved${moved}`);
  },
  /** One step back, of the rows stored last; what was said of the list itself stays. */
  undo: async ({ locals, params, request }) => {
    const of = textOf(fieldsOf(await request.formData()), 'of');
    const record = await readRecord(locals.store);
    // The change is named by one of its cases (`of`), which may have moved to another list.
    const message = await undoLast(locals.store, record, [of.replace(/\.\d+$/, '')], of, locals.now);
    if (message) return fail(409, { section: 'undo' as const, errors: [{ field: 'rows', message }], values: {} });
    redirect(303, `/cases/lists/${params.id}?said=undone`);
  },
  ...untimedActions,
} satisfies Actions;
