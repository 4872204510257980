import { caseView, type CaseView } from '../rooms/cases/case-view';
import type { FieldError, Fields } from '../rooms/forms/fields';
import { hiddenCaseIds } from '../rooms/goals/hidden-times';
import { listed } from '../format';
import type { Case } from '../model';
import { attempt } from './attempt';
import { readRecord } from './record';
import { StaleVersionError, type Store } from './storage/port';

/** Not stored; `fields` as they were sent, with the versions of today where storing again is to replace what is stored. */
export type NotStored = { error: FieldError; fields: Fields };

/**
 * Changes cases by a form that names the version of each that it was filled from. Where one was changed elsewhere since,
 * nothing is written: what is stored of every such case now is said beside what was typed, and pressed again the form
 * replaces it, knowingly.
 * @param words what is stored now of the part that the form replaces
 * @param nameOf the field in which the version of a case is sent
 */
export async function changedUnlessStale(
  { store, fields, field }: { store: Store; fields: Fields; field: string },
  sent: readonly Case[],
  words: (view: CaseView) => string,
  nameOf: (id: string) => string,
  change: () => Promise<unknown>,
): Promise<NotStored | null> {
  const { refused } = await attempt(field, change);
  if (!refused) return null;
  const record = await readRecord(store);
  const hidden = hiddenCaseIds(record);
  const stale = sent.flatMap(
    ({ id, version }) => record.cases.find((each) => each.id === id && each.version !== version) ?? [],
  );
  if (stale.length === 0) return { error: refused, fields };
  const codes = stale.map(({ code }) => code);
  const said = stale.map((one) => {
    const now = words(caseView(one, record, hidden.has(one.id)));
    return stale.length === 1 ? now : `${one.code}: ${now}`;
  });
  const what = stale.length === 1 ? `Case ${codes[0]}` : `Each of the cases ${listed(codes)}`;
  return {
    error: { field, message: new StaleVersionError(what, said.join(' · ')).message },
    fields: { ...fields, ...Object.fromEntries(stale.map(({ id, version }) => [nameOf(id), [String(version)]])) },
  };
}
