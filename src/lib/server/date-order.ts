import { ORDER_FIELD } from '../rooms/forms/list-fields';
import { textOf, type Fields } from '../rooms/forms/fields';
import { fieldsOf } from './form-fields';
import type { Store } from './storage/port';

/** Which number of "3/4/2026" is the day, as it was said once; among the drafts, because nothing rests on it. */
const KEY = 'date-order';

/** Fields with the order said earlier, where they say none. */
export async function withOrder(store: Store, fields: Fields): Promise<Fields> {
  if (textOf(fields, ORDER_FIELD) !== '') return fields;
  const said = await store.draft(KEY);
  return said === null ? fields : { ...fields, [ORDER_FIELD]: [said] };
}

/** A posted form that holds a date. An order said in it is kept for all forms to come, whatever becomes of this one. */
export async function datedFields(store: Store, form: FormData): Promise<Fields> {
  const fields = fieldsOf(form);
  const said = textOf(fields, ORDER_FIELD);
  if ((said === 'dmy' || said === 'mdy') && said !== (await store.draft(KEY))) await store.saveDraft(KEY, said);
  return withOrder(store, fields);
}
