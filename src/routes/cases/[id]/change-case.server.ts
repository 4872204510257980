import { error, fail, redirect, type RequestEvent } from '@sveltejs/kit';
import type { CaseChange } from '$lib/rooms/cases/case-change';
import { storedNow, type Typed } from '$lib/rooms/cases/stored-now';
import { textOf, type FieldError, type Fields } from '$lib/rooms/forms/fields';
import { hiddenCaseIds } from '$lib/rooms/goals/hidden-times';
import { procedureOf, type SurgeonRecord, type Case, type ListRecord, type Procedure } from '$lib/model';
import { datedFields } from '$lib/server/date-order';
import { changeCases } from '$lib/server/last-change';
import { attempt } from '$lib/server/attempt';
import { readRecord } from '$lib/server/record';
import { changedUnlessStale } from '$lib/server/stale-cases';

export type Section = Typed | 'erase' | 'undo';

/** The case a form was filled for, and all it may need to know. */
export type Asked = {
  fields: Fields;
  one: Case;
  procedure: Procedure;
  record: SurgeonRecord;
  hidden: ReadonlySet<string>;
  now: string;
};

/** What a section of the page gets back when its form cannot be taken: what is wrong, and what was typed. */
export const refused = (section: Section, fields: Fields, errors: readonly FieldError[], status = 400) =>
  fail(status, { section, errors: [...errors], values: fields });

export async function asked({ locals, params, request }: RequestEvent): Promise<Asked> {
  const fields = await datedFields(locals.store, await request.formData());
  const record = await readRecord(locals.store);
  const one = record.cases.find(({ id }) => id === params.id);
  if (!one) error(404, 'There is no such case in the record.');
  return {
    fields,
    // The version the form was made from: a change made elsewhere in between is then refused, not written over.
    one: { ...one, version: Number(textOf(fields, 'version')) || one.version },
    procedure: procedureOf(record, one.procedureId),
    record,
    hidden: hiddenCaseIds(record),
    now: locals.now,
  };
}

/** Stores a change and goes back to the page with a word about it. @param onto a list to be made, to which it moves */
export async function store(
  event: RequestEvent,
  section: Typed,
  fields: Fields,
  change: CaseChange,
  said: string,
  onto?: Omit<ListRecord, 'id'>,
) {
  const to = `/cases/${event.params.id}?said=`;
  if (!change) redirect(303, `${to}same`);
  const not = await changedUnlessStale(
    { store: event.locals.store, fields, field: section },
    [change.case],
    (view) => storedNow(section, view),
    () => 'version',
    () => changeCases(event.locals.store, [change], event.locals.now, undefined, onto),
  );
  if (not) return refused(section, not.fields, [not.error], 409);
  redirect(303, `${to}${said}&version=${change.case.version + 1}`);
}

/** As `store`, for a form about one of several events by its place among them: pressed again it might mean another. */
export async function storeOnce(event: RequestEvent, fields: Fields, change: CaseChange, said: string) {
  if (change) {
    const { refused: why } = await attempt('events', () => changeCases(event.locals.store, [change], event.locals.now));
    if (why) return refused('events', fields, [why], 409);
  }
  redirect(303, `/cases/${event.params.id}?said=${change ? `${said}&version=${change.case.version + 1}` : 'same'}`);
}
