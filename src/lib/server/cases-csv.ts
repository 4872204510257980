import { hiddenCaseIds } from '../rooms/goals/hidden-times';
import { procedureOf, type Case, type Event, type ListRecord } from '../model';
import type { WriteOptions } from '../intake';
import { personIn } from '../persons';
import type { Work } from '../turns';
import { inTurns } from './in-turns';
import { readRecord } from './record';
import type { Store } from './storage/port';

/**
 * Cases of one procedure as a CSV file to download. Months stand in place of dates unless `dates=day` is asked for, and
 * a list's own name that looks like a person or a day gives way to its number. What was written in reviews of events
 * goes out with `reviews=text` alone, and not where it looks like a person: then the month tells that there was one.
 * Cases of a running window are left out: a file that shows their times would show them to the surgeon too.
 */
export async function casesCsv(
  store: Store,
  url: URL,
  name: string,
  writing: (cases: readonly Case[], options: WriteOptions) => Work<string>,
): Promise<Response> {
  const record = await readRecord(store);
  const used = record.procedures.filter(({ id }) => record.cases.some((one) => one.procedureId === id));
  const asked = url.searchParams.get('procedure') ?? record.profile.procedureId;
  const procedure = used.find(({ id }) => id === asked) ?? used[0] ?? procedureOf(record, asked);
  const hidden = hiddenCaseIds(record);
  const cases = record.cases.filter(({ id, procedureId }) => procedureId === procedure.id && !hidden.has(id));
  const dates = url.searchParams.get('dates') === 'day' ? 'day' : 'month';
  const none = record.profile.notPersons ?? [];
  const withText = url.searchParams.get('reviews') === 'text';
  const going = cases.map((one) =>
    one.events?.length ? { ...one, events: one.events.map(goingOut(withText, none)) } : one,
  );
  const lists = dates === 'day' ? record.lists : record.lists.map((list) => withoutTellingName(list, none));
  const csv = await inTurns(writing(going, { procedure, lists, dates }));
  return new Response(csv, {
    headers: {
      'content-type': 'text/csv; charset=utf-8',
      'content-disposition': `attachment; filename="${name}-${procedure.id}.csv"`,
      'cache-control': 'no-store',
    },
  });
}

const goingOut =
  (withText: boolean, none: readonly string[]) =>
  (event: Event): Event =>
    !event.reviewed?.text || (withText && personIn(event.reviewed.text, 'note', none).length === 0)
      ? event
      : { ...event, reviewed: { ...event.reviewed, text: null } };

const withoutTellingName = (list: ListRecord, none: readonly string[]): ListRecord =>
  list.label !== null && personIn(list.label, 'note', none).length > 0 ? { ...list, label: null } : list;
