import { describe, expect, it } from 'vitest';
import { namesSeveralDays, readDate } from '../../../src/lib/intake';
import { listFromForm, whenFromFields } from '../../../src/lib/rooms/forms/list-fields';
import { newListFromForm } from '../../../src/lib/rooms/lists/new-list';
import { read } from './reading';

describe('several days where a list is one', () => {
  it.each([
    '2 to 23 Dec',
    '2-23 Dec',
    '2.–23.12.2026',
    '3 and 4 March 2026',
    '2nd/3rd March 2026',
    '5 bis 7 März',
    '2 au 4 avril',
    '1. - 3. Mai 2026',
  ])('%s is named as such, and is no date', (text) => {
    expect(namesSeveralDays(text)).toBe(true);
    expect(readDate(text, 'dmy')).toMatchObject({ kind: 'problem', problem: expect.stringContaining('more than one day') as string }); // prettier-ignore
    expect(whenFromFields({ when: [text] }, 'when').errors).toMatchObject([{ field: 'when', message: expect.stringContaining('more than one day') as string }]); // prettier-ignore
  });

  it.each([
    '23 Dec 2026',
    '2026-12-23',
    '23.12.2026',
    '3/4/2026',
    '3-Mar-26',
    'Mar 3, 2025',
    'March 2026',
    '03-Mar-2025',
    '12 de marzo de 2026',
    '2026-12-23T10:30',
    'list 2',
    'A 1 and 2',
    'morning and afternoon',
    '23-12-26',
  ])('%s is none', (text) => expect(namesSeveralDays(text)).toBe(false));

  it('is refused as the name of a new list, and asked about in a file', () => {
    const fields = { when: [''], label: ['2 to 23 Dec'], count: ['3'], first: ['A1'], procedure: ['phaco'] };
    expect(newListFromForm(fields, new Set(), ['phaco']).errors.map(({ field }) => field)).toEqual(['label']);
    const beside = { list: ['new'], newListLabel: ['2 to 23 Dec'], newListWhen: [''] };
    expect(listFromForm(beside, []).errors.map(({ field }) => field)).toEqual(['newListLabel']);
    const { problems, cases } = read('case_id,list,rhexis,hydro\nA1,2 to 23 Dec,60,30\nA2,2 to 23 Dec,61,31');
    expect(cases).toHaveLength(2);
    expect(problems.filter(({ why }) => why.includes('more than one day'))).toMatchObject([{ column: 'list', value: '2 to 23 Dec', weight: 'queried' }]); // prettier-ignore
  });
});
