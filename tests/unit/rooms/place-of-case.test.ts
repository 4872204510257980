import { describe, expect, it } from 'vitest';
import { movedFromForm, placeFromForm, placeOfCase } from '../../../src/lib/rooms/cases/place-of-case';
import { aCase, aList, aRecord, smallProcedure } from '../../made-up/record';

const asFields = (fields: Record<string, string | string[]>) =>
  Object.fromEntries(Object.entries(fields).map(([name, value]) => [name, [value].flat()]));
const lists = [aList(1), aList(2)];
const one = aCase(1, { listId: 'list-1', position: 3 });
const record = aRecord({
  lists,
  cases: [one, aCase(2, { listId: 'list-1', position: 4 }), aCase(3, { listId: 'list-2' })],
});
const [step] = smallProcedure.steps;
/** The form as the page shows it, with what is changed in it. */
const sent = (changed: Record<string, string> = {}, of = one) => {
  const { list, position, side, remark, remarkStep } = placeOfCase(of, record);
  return placeFromForm(
    asFields({ list, position: String(position ?? ''), side, remark, remarkStep, ...changed }),
    of,
    record,
  );
};

describe('list, place, eye and remark of a case', () => {
  it('sent as they are change nothing', () => {
    expect(sent()).toEqual({ change: null, onto: null, errors: [] });
  });

  it('go to another list, or to none, with a line that names both', () => {
    const moved = sent({ list: 'list-2', position: '' });
    expect(moved.change?.case).toMatchObject({ listId: 'list-2', position: null, sequence: one.sequence });
    expect(moved.change?.what).toMatch(/^List: .+ → .+; Place: 3 → not known$/);
    expect(sent({ list: '' }).change?.case.listId).toBeNull();
  });

  it('go to a new list whose date is filled in, though the old one is still chosen', () => {
    const { onto, change, errors } = sent({ newListWhen: '12 March 2026' });
    expect(errors).toEqual([]);
    expect(onto).toMatchObject({ when: { kind: 'date', date: '2026-03-12' } });
    expect(change?.what).toMatch(/→ 12 March 2026$/);
    expect(sent({ list: 'list-2', newListWhen: '12 March 2026' }).errors).toMatchObject([{ field: 'list' }]);
  });

  it('keep which eye and a remark, of a step or of the whole case, and take them away again', () => {
    const kept = sent({ side: 'left', remark: 'Iris came forward twice', remarkStep: step?.id ?? '' });
    expect(kept.change).toMatchObject({
      case: { side: 'left', remark: { stepId: step?.id, text: 'Iris came forward twice' } },
      what: 'Eye: not said → left eye; Remark written',
    });
    const now = kept.change?.case ?? one;
    expect(placeOfCase(now, record).said).toBe(`left eye. ${step?.label}: Iris came forward twice.`);
    const gone = sent({ side: '', remark: '' }, now);
    expect(Object.keys(gone.change?.case ?? {})).not.toContain('remark');
    expect(gone.change?.what).toBe('Eye: left eye → not said; Remark changed; before: Iris came forward twice');
  });

  it.each([
    [{ position: 'x' }, 'position'],
    [{ position: '0' }, 'position'],
    [{ list: 'list-9' }, 'list'],
    [{ remark: 'a'.repeat(301) }, 'remark'],
    [{ newListWhen: '31/2/2026' }, 'newListWhen'],
    [{ newListWhen: '3/4/2026' }, 'dateOrder'],
  ])('%j is refused at its field, and nothing is changed', (changed, field) => {
    const { change, errors } = sent(changed as Record<string, string>);
    expect([change, errors.map((error) => error.field)]).toEqual([null, [field]]);
  });
});

describe('cases that move to another list', () => {
  const move = (fields: Record<string, string | string[]>) => movedFromForm(asFields(fields), lists[0]!, record);

  it('are those ticked, of this list alone; their places are not taken along', () => {
    const { changes } = move({ move: ['case-1', 'case-3'], list: 'list-2', 'case-1.version': '1' });
    expect(changes.map(({ case: { id, listId, position } }) => [id, listId, position])).toEqual([
      ['case-1', 'list-2', null],
    ]);
    expect(changes[0]?.what).toMatch(/; it had place 3 there$/);
  });

  it('go by the version their page was made from', () => {
    expect(move({ move: 'case-1', list: 'list-2', 'case-1.version': '7' }).changes[0]?.case.version).toBe(7);
  });

  it.each([
    [{ list: 'list-2' }, 'move'],
    [{ move: 'case-1' }, 'list'],
    [{ move: 'case-1', list: 'list-1' }, 'list'],
    [{ move: 'case-1', list: 'list-2', newListWhen: '2026-03-12' }, 'list'],
  ])('%j is refused', (fields, field) => {
    const { changes, errors } = move(fields);
    expect([changes, errors.map((error) => error.field)]).toEqual([[], [field]]);
  });
});
