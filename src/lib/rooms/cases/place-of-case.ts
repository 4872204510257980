import { procedureOf, type Case, type ListRecord, type SurgeonRecord } from '../../model';
import { PLACE_PROBLEMS, remarkTooLong } from '../../words/place-of-case';
import { textOf, textsOf, wholeOf, type FieldError, type Fields } from '../forms/fields';
import { listFromForm, type ListChoice } from '../forms/list-fields';
import { listTitle } from '../forms/when-words';
import type { CaseChange } from './case-change';
import { listChoices } from './new-case-view';

type Choice = { value: string; label: string };

/** Where a case stands and what else is kept of it, as the fields of its form. */
export type PlaceOfCase = {
  lists: readonly Choice[];
  list: string;
  position: number | null;
  side: '' | 'right' | 'left';
  remark: string;
  remarkStep: string;
  /** In words, where anything is said. */
  said: string | null;
};

/** More lists than a select is of use for; the one of the case is always among them. */
const LISTS = 300;
const LONGEST = 300;
const SIDE = { right: 'right eye', left: 'left eye' } as const;

export function placeOfCase(one: Case, record: SurgeonRecord): PlaceOfCase {
  const steps = procedureOf(record, one.procedureId).steps;
  const own = record.lists.find(({ id }) => id === one.listId);
  const lists = listChoices(record, LISTS);
  const step = steps.find(({ id }) => id === one.remark?.stepId)?.label;
  const said = [
    ...(one.side ? [SIDE[one.side]] : []),
    ...(one.remark ? [`${step ? `${step}: ` : ''}${one.remark.text}`] : []),
  ];
  return {
    lists:
      own && !lists.some(({ value }) => value === own.id)
        ? [...lists, { value: own.id, label: listTitle(own) }]
        : lists,
    list: one.listId ?? '',
    position: one.position,
    side: one.side ?? '',
    remark: one.remark?.text ?? '',
    remarkStep: one.remark?.stepId ?? '',
    said: said.length > 0 ? `${said.join('. ')}.` : null,
  };
}

export type Placed = { change: CaseChange; onto: Extract<ListChoice, { kind: 'new' }> | null; errors: FieldError[] };

/** The form of one case read: its list (perhaps a new one), place, side and remark. Its place in time stays as it was. */
export function placeFromForm(fields: Fields, one: Case, record: SurgeonRecord): Placed {
  const { list, errors } = listFromForm(fields, record.lists, one.listId);
  const position = wholeOf(fields, 'position', 1);
  if (position === undefined) errors.push({ field: 'position', message: PLACE_PROBLEMS.position });
  const text = textOf(fields, 'remark');
  if (text.length > LONGEST) errors.push({ field: 'remark', message: remarkTooLong(LONGEST) });
  const step = procedureOf(record, one.procedureId).steps.find(({ id }) => id === textOf(fields, 'remarkStep'));
  const sent = textOf(fields, 'side');
  const side = sent === 'right' || sent === 'left' ? sent : undefined;
  if (errors.length > 0) return { change: null, onto: null, errors };
  const onto = list.kind === 'new' ? list : null;
  const { side: _side, remark: _remark, ...rest } = one;
  const changed: Case = {
    ...rest,
    ...(side ? { side } : {}),
    ...(text === '' ? {} : { remark: { stepId: step?.id ?? null, text } }),
    listId: list.kind === 'known' ? list.id : list.kind === 'none' ? null : one.listId,
    position: position ?? null,
  };
  const what = changesOf(one, changed, onto, record);
  return { change: what.length > 0 ? { case: changed, what: what.join('; ') } : null, onto, errors: [] };
}

function changesOf(before: Case, after: Case, onto: Placed['onto'], { lists }: SurgeonRecord): string[] {
  const title = (id: string | null) => nameOf(lists.find((each) => each.id === id));
  const place = (position: number | null) => (position === null ? 'not known' : String(position));
  const side = (one: Case) => (one.side ? SIDE[one.side] : 'not said');
  const sameRemark = before.remark?.text === after.remark?.text && before.remark?.stepId === after.remark?.stepId;
  return [
    ...(onto || before.listId !== after.listId
      ? [`List: ${title(before.listId)} → ${onto ? nameOf(onto) : title(after.listId)}`]
      : []),
    ...(before.position === after.position ? [] : [`Place: ${place(before.position)} → ${place(after.position)}`]),
    ...(before.side === after.side ? [] : [`Eye: ${side(before)} → ${side(after)}`]),
    ...(sameRemark ? [] : [before.remark ? `Remark changed; before: ${before.remark.text}` : 'Remark written']),
  ];
}

const nameOf = (list: Pick<ListRecord, 'label' | 'when'> | undefined): string => (list ? listTitle(list) : 'not known');

/** Cases of a list that go to another; the place each had there says nothing of the other list. */
export function movedFromForm(
  fields: Fields,
  from: ListRecord,
  record: SurgeonRecord,
): { changes: NonNullable<CaseChange>[]; onto: Placed['onto']; errors: FieldError[] } {
  const { list, errors } = listFromForm(fields, record.lists);
  const ids = textsOf(fields, 'move');
  const cases = record.cases.filter(({ id, listId }) => listId === from.id && ids.includes(id));
  if (cases.length === 0) errors.push({ field: 'move', message: PLACE_PROBLEMS['none-ticked'] });
  if (list.kind === 'none' && errors.length === 0) errors.push({ field: 'list', message: PLACE_PROBLEMS['no-list'] });
  if (list.kind === 'known' && list.id === from.id)
    errors.push({ field: 'list', message: PLACE_PROBLEMS['same-list'] });
  if (errors.length > 0 || list.kind === 'none') return { changes: [], onto: null, errors };
  const to = list.kind === 'new' ? nameOf(list) : nameOf(record.lists.find(({ id }) => id === list.id));
  return {
    changes: cases.map((one) => ({
      case: {
        ...one,
        version: Number(textOf(fields, `${one.id}.version`)) || one.version,
        listId: list.kind === 'known' ? list.id : one.listId,
        position: null,
      },
      what: `List: ${nameOf(from)} → ${to}${one.position === null ? '' : `; it had place ${one.position} there`}`,
    })),
    onto: list.kind === 'new' ? list : null,
    errors: [],
  };
}
