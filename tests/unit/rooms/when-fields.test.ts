import { describe, expect, it } from 'vitest';
import { listFromForm, whenFromFields } from '../../../src/lib/rooms/forms/list-fields';

const asFields = (fields: Record<string, string>) =>
  Object.fromEntries(Object.entries(fields).map(([name, value]) => [name, [value]]));

const when = (fields: Record<string, string>, shown = '') =>
  whenFromFields(asFields(fields), 'when', 'Not a date.', shown);
const day = (date: string) => ({ when: { kind: 'date', date }, errors: [] });

describe('a day as people write it', () => {
  it.each([
    ['2026-03-12', '2026-03-12'],
    ['12.3.2026', '2026-03-12'],
    ['13/3/26', '2026-03-13'],
    ['3/13/2026', '2026-03-13'],
    ['12 March 2026', '2026-03-12'],
    ['March 12, 2026', '2026-03-12'],
    ['12. März 2026', '2026-03-12'],
    ['3 de marzo de 2026', '2026-03-03'],
    ['1 août 2026', '2026-08-01'],
    ['5 dicembre 2026', '2026-12-05'],
    ['7 Okt 2026', '2026-10-07'],
    ['20260312', '2026-03-12'],
  ])('%s', (text, date) => {
    const asked: Record<string, string> = /^12\.3/.test(text) ? { when: text, dateOrder: 'dmy' } : { when: text };
    expect(when(asked)).toEqual(day(date));
  });

  it('or a month, a number, or nothing', () => {
    expect(when({ when: 'March 2026' }).when).toEqual({ kind: 'month', month: '2026-03' });
    expect(when({ when: '2026-03' }).when).toEqual({ kind: 'month', month: '2026-03' });
    expect(when({ when: '31' }).when).toEqual({ kind: 'number', number: 31 });
    expect(when({ when: '' }).when).toEqual({ kind: 'unknown' });
  });

  it('that can be two days is asked about once, and read as was said', () => {
    expect(when({ when: '3/4/2026' })).toEqual({
      when: null,
      errors: [{ field: 'dateOrder', message: expect.stringContaining('"3/4/2026" can be two days') as string }],
    });
    expect(when({ when: '3/4/2026', dateOrder: 'dmy' })).toEqual(day('2026-04-03'));
    expect(when({ when: '3/4/2026', dateOrder: 'mdy' })).toEqual(day('2026-03-04'));
    expect(when({ when: '3/13/2026', dateOrder: 'dmy' })).toEqual(day('2026-03-13'));
    // The same day either way: nothing is asked.
    expect(when({ when: '3/3/2026' })).toEqual(day('2026-03-03'));
  });

  it.each(['31/2/2026', 'soon', '12/3', '2026-13-01', '40 March 2026', '3/4/1826'])('%s is none', (text) => {
    expect(when({ when: text })).toEqual({ when: null, errors: [{ field: 'when', message: 'Not a date.' }] });
  });
});

describe("a day picked in the browser's own field", () => {
  it('counts alone, beside the same day, and in place of the text the page had put there', () => {
    expect(when({ whenDay: '2026-03-12' })).toEqual(day('2026-03-12'));
    expect(when({ when: '12 March 2026', whenDay: '2026-03-12' })).toEqual(day('2026-03-12'));
    expect(when({ when: '2026-01-01', whenDay: '2026-03-12' }, '2026-01-01')).toEqual(day('2026-03-12'));
  });

  it('beside another day that was written is asked about', () => {
    expect(when({ when: '13 March 2026', whenDay: '2026-03-12' }).errors).toEqual([
      { field: 'when', message: 'You wrote "13 March 2026" and picked 2026-03-12. Leave one of the two.' },
    ]);
  });
});

describe('a new list of a typed case', () => {
  const list = (fields: Record<string, string>) => listFromForm(asFields(fields), [{ id: 'list-1' } as never]);
  it('keeps its date whatever the choice of lists says', () => {
    const made = { kind: 'new', label: null, when: { kind: 'date', date: '2026-03-12' } };
    expect(list({ list: '', newListWhen: '12 March 2026' })).toEqual({ list: made, errors: [] });
    expect(list({ list: 'new', newListWhenDay: '2026-03-12' })).toEqual({ list: made, errors: [] });
  });

  it('beside a list of the record is asked about, and never dropped', () => {
    expect(list({ list: 'list-1', newListWhen: '12 March 2026' }).errors).toEqual([
      { field: 'list', message: expect.stringContaining('you chose one and filled in a new one') as string },
    ]);
    expect(list({ list: 'list-1' })).toEqual({ list: { kind: 'known', id: 'list-1' }, errors: [] });
    expect(list({ list: '' })).toEqual({ list: { kind: 'none' }, errors: [] });
  });
});
