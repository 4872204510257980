import { describe, expect, it } from 'vitest';
import { countedCases, latestShown, stepTable } from '../../../src/lib/audit';
import { case_, length, listRecord, procedure, step, stretch } from '../../made-up/cases';

const plain = procedure([step('a'), step('b'), step('c', { optional: true })]);
const merging = procedure([step('both', { mergeOf: ['a', 'b'] }), step('a'), step('b'), step('c')]);
const row = (values: Float64Array | undefined) => [...(values ?? [])];

describe('the table of step times', () => {
  it('orders cases by time and leaves NaN where a step is absent', () => {
    const table = stepTable(
      [case_(2, [stretch('a', 0, 20), stretch('b', 20, 25)]), case_(1, [stretch('a', 0, 10)])],
      plain,
      [],
    );
    expect(table.cases.map(({ id }) => id)).toEqual(['case-1', 'case-2']);
    expect(table.stepIds).toEqual(['a', 'b', 'c']);
    expect(row(table.seconds[0])).toEqual([10, 20]);
    expect(row(table.seconds[1])).toEqual([NaN, 5]);
    expect(row(table.returnedTo[1])).toEqual([NaN, 0]);
    expect(row(table.waiting[0])).toEqual([0, 0]);
  });

  it('does not say "never went back" where the sheet has one length a step', () => {
    const table = stepTable([case_(1, [length('a', 10), length('b', 5)])], plain, []);
    expect(row(table.returnedTo[0])).toEqual([NaN]);
    const told = stepTable([case_(1, [length('a', 10)], { returnsNoted: { a: 0 } })], plain, []);
    expect(row(told.returnedTo[0])).toEqual([0]);
  });

  it('knows lists by their record, by their date, or takes eight neighbours as one', () => {
    const ten = Array.from({ length: 10 }, (_, index) =>
      case_(index + 1, [length('a', 10)], { listId: `list-${index < 4 ? 1 : 2}` }),
    );
    const lists = stepTable(ten, plain, [listRecord(1), listRecord(2)]);
    expect([...lists.list]).toEqual([0, 0, 0, 0, 1, 1, 1, 1, 1, 1]);
    expect(lists.listsFrom).toBe('lists');
    const dated = [1, 2].map((number) =>
      listRecord(number, { label: null, when: { kind: 'date', date: `2026-01-0${number}` } }),
    );
    expect(stepTable(ten, plain, dated).listsFrom).toBe('dates');
    const unknown = stepTable(
      ten.map((each) => ({ ...each, listId: null })),
      plain,
      [],
    );
    expect([...unknown.list]).toEqual([0, 0, 0, 0, 0, 0, 0, 0, 1, 1]);
    expect(unknown.listsFrom).toBe('blocks');
  });

  it('holds an empty record', () => {
    const table = stepTable([], plain, []);
    expect(table.listCount).toBe(0);
    expect(table.seconds.map((values) => values.length)).toEqual([0, 0, 0]);
  });
});

describe('a merged step and its parts', () => {
  const withParts = case_(1, [stretch('a', 0, 10), stretch('b', 10, 30), stretch('a', 30, 35), stretch('c', 35, 40)]);
  const withMerged = case_(2, [stretch('both', 0, 50), stretch('c', 50, 60)]);

  it('stand in the table one or the other, never both', () => {
    expect(stepTable([withParts], merging, []).stepIds).toEqual(['a', 'b', 'c']);
    expect(stepTable([withMerged], merging, []).stepIds).toEqual(['both', 'c']);
    const mixed = stepTable([withParts, withMerged], merging, []);
    expect(mixed.stepIds).toEqual(['both', 'c']);
    expect(row(mixed.seconds[0])).toEqual([35, 50]);
  });

  it('do not count going from part to part as going back to the merged step', () => {
    expect(row(stepTable([withParts, withMerged], merging, []).returnedTo[0])).toEqual([0, 0]);
  });

  it('are absent together where one part is by other hands', () => {
    const shared = { ...withParts, hands: { whole: 'mine' as const, steps: { b: 'shared' as const } } };
    expect(row(stepTable([shared, withMerged], merging, []).seconds[0])).toEqual([NaN, 50]);
  });

  it('give way to the step that is wanted', () => {
    expect(stepTable([withParts, withMerged], merging, [], { wanted: ['a'] }).stepIds).toEqual(['a', 'b', 'c']);
  });

  it('stand side by side where the record times the "merged" step beside a part: it means something narrower there', () => {
    const both = case_(3, [stretch('both', 0, 50), stretch('a', 50, 60)]);
    expect(stepTable([both], merging, []).stepIds).toEqual(['both', 'a', 'b', 'c']);
  });

  it('keep the parts where the merged clock is rare', () => {
    const many = Array.from({ length: 20 }, (_, index) => ({
      ...withParts,
      id: `case-${index + 10}`,
      sequence: index + 10,
    }));
    expect(stepTable([...many, withMerged], merging, []).stepIds).toEqual(['a', 'b', 'c']);
  });
});

describe('the cases that count', () => {
  it('are of the procedure, not left out, with at least one own step', () => {
    const at = '2026-01-01T10:00:00Z';
    const cases = [
      case_(3, [length('a', 10)]),
      case_(1, [length('a', 10)]),
      case_(2, [length('a', 10)], { leftOut: { reason: 'other', timesSeen: false, at } }),
      case_(4, [length('a', 10)], { procedureId: 'another' }),
      case_(5, [length('a', 10)], { hands: { whole: 'someone-else', steps: {} } }),
      case_(6, []),
    ];
    expect(countedCases(cases, plain).map(({ id }) => id)).toEqual(['case-1', 'case-3']);
    expect(latestShown(countedCases(cases, plain), 1).map(({ id }) => id)).toEqual(['case-3']);
    expect(latestShown(countedCases(cases, plain)).length).toBe(2);
  });
});
