import { describe, expect, it } from 'vitest';
import type { Case, ListRecord, SurgeonRecord } from '../../../src/lib/model';
import { between } from '../../../src/lib/rooms/over-time/between';
import { overTimeView } from '../../../src/lib/rooms/over-time/over-time-view';
import { askedSplit, splitChoices, splitOf } from '../../../src/lib/rooms/over-time/split';
import { listsFor, month, operation, type Month } from '../../made-up/month';
import { aRecord } from '../../made-up/record';
import { recordOf } from '../../made-up/read-month';

const asked = (query: string) => askedSplit(new URLSearchParams(query));
const plain = (text: string) => text.replaceAll('\u00a0', ' ');

/** Lists of five, one a week from 6 January 2025 on. */
function dated(
  count: number,
  how: Month = {},
  more: (list: number) => Partial<ListRecord> = () => ({}),
): SurgeonRecord {
  const cases = month(count, how);
  const lists = listsFor(cases).map((list, at) => ({
    ...list,
    label: null,
    when: { kind: 'date' as const, date: new Date(Date.UTC(2025, 0, 6 + 7 * at)).toISOString().slice(0, 10) },
    ...more(at),
  }));
  return aRecord({ procedures: [operation], cases, lists });
}
const shown = (record: SurgeonRecord, query = '') => overTimeView(record, operation, asked(query));

describe('two stretches on the screen', () => {
  it('names the step that was shorter, by months, and never why', () => {
    // The 26th Monday from 6 January 2025 on is 30 June.
    const record = dated(250, { change: Math.log(0.7), from: 130 });
    const room = shown(record, 'by=list&list=list-27');
    expect(room.head).toBe('Practised was shorter in July to December 2025 than in January to June 2025.');
    expect([room.head, ...room.lede].join(' ')).not.toMatch(/because of|thanks to|due to|improv|faster|better/i);
  });

  it('calls stretches that meet within a month by their days', () => {
    // Fifty cases in ten lists: the tenth on 10 March, the eleventh on 17 March.
    const room = shown(dated(100, { change: Math.log(0.7), from: 50 }));
    expect(room.head).toBe('Practised was shorter from 17 March to 19 May 2025 than from 6 January to 10 March 2025.');
  });

  it('gives each step a row with its interval and both medians, and the whole last', () => {
    const record = dated(100, { change: Math.log(0.7), from: 50 });
    const { answer } = shown(record);
    expect(answer!.rows.map(({ id }) => id)).toEqual([...operation.steps.map(({ id }) => id), 'whole']);
    expect(answer!.rows.filter(({ bold }) => bold).map(({ id }) => id)).toEqual(['practised']);
    const middle = (from: number) => {
      const times = record.cases
        .slice(from, from + 50)
        .map(({ stretches }) => stretches.find(({ stepId }) => stepId === 'practised')!.seconds)
        .sort((a, b) => a - b);
      const seconds = Math.round((times[24]! + times[25]!) / 2);
      return `${Math.floor(seconds / 60)}:${String(seconds % 60).padStart(2, '0')}`;
    };
    expect(answer!.table.rows[1]!.slice(0, 4)).toEqual(['Practised', middle(0), middle(50), '50, 50']);
    expect(answer!.rows[1]!.under).toBe(`median ${middle(0)}, then ${middle(50)}`);
  });

  it('says that nothing was clear without calling it no change', () => {
    const room = shown(dated(100));
    expect(room.head).toMatch(/^No step was clearly shorter or longer from /);
    expect(room.lede.join(' ')).toContain('This is not "no change"');
  });

  it('says what is missing where there is too little', () => {
    const room = shown(dated(30));
    expect(room).toMatchObject({ head: 'These two cannot be compared.', answer: null });
    expect(room.lede.join(' ')).toBe('20 counted cases are needed in each; there are 15 and 15.');
  });

  it('judges a date chosen freely more strictly, and says so', () => {
    const room = shown(dated(100, { change: Math.log(0.7), from: 50 }), 'by=date&date=2025-03-17');
    expect(room.head).toContain('Practised was shorter');
    expect(room.lede.join(' ')).toContain('chosen freely');
    expect(shown(dated(100)).lede.join(' ')).not.toContain('chosen freely');
  });

  it("refuses a goal's baseline cases and its window, and leads to After twenty", () => {
    const record = recordOf(60, { change: Math.log(0.7) });
    const free = 'by=free&earlierFrom=C1&earlierTo=C40&laterFrom=C41&laterTo=C60';
    expect(shown(record, free)).toMatchObject({ answer: null, goal: { href: '/after-twenty/goal-1' } });
    expect(shown({ ...record, goals: [] }, free).goal).toBeNull();
    // A case more or less on either side is the same question; halves of a longer record are another.
    expect(shown(record, 'by=free&earlierFrom=C2&earlierTo=C39&laterFrom=C41&laterTo=C60').goal).not.toBeNull();
    expect(shown(recordOf(100, { change: Math.log(0.7) })).goal).toBeNull();
    expect(plain(shown({ ...record, goals: [] }, free).head)).toContain('was shorter');
  });

  it('leaves out the cases of a running window that hides its times, and says how many', () => {
    const record = recordOf(100, { from: 200 });
    const running = { ...record, cases: record.cases.slice(0, 55) };
    const room = shown(running);
    expect(room.made.join(' ')).toContain('15 cases of a running window are not in it');
    expect(room.lede.join(' ')).toContain('20 cases over 4 lists against 20 cases over 4 lists');
    const seen = {
      ...running,
      goals: running.goals.map((goal) => ({ ...goal, timesShown: ['2026-07-01T10:00:00Z'] })),
    };
    expect(shown(seen).made.join(' ')).not.toContain('running window');
  });
});

describe('how a record is parted', () => {
  const record = dated(100, {}, (at) => ({ machine: at < 12 ? 'A' : 'B' }));
  const sizes = (query: string, from = record) => {
    const split = splitOf(asked(query), from.cases, from.lists);
    return split.kind === 'split' ? [split.earlier.length, split.later.length, split.fixed] : [split.field];
  };

  it('in halves, where a list begins', () => {
    expect(sizes('by=halves')).toEqual([50, 50, true]);
    expect(sizes('', dated(94))).toEqual([45, 49, true]);
  });

  it('by calendar years, the latest two unless asked', () => {
    // 52 Mondays of 2025 from 6 January on, five cases each.
    const long = dated(400);
    expect(sizes('by=years', long)).toEqual([260, 140, true]);
    expect(sizes('by=years')).toEqual(['year']);
    expect(splitChoices(long.cases, long.lists).years).toEqual([{ value: '2026', label: '2026 against 2025' }]);
    expect(sizes('by=years&year=1999', long)).toEqual(['year']);
  });

  it('by a change noted with a list, fixed beforehand; by a list or a day, freely', () => {
    expect(splitChoices(record.cases, record.lists).changes).toEqual([
      { value: 'list-13', label: 'machine B after A, from March 2025 on' },
    ]);
    expect(sizes('by=change&change=list-13')).toEqual([60, 40, true]);
    expect(sizes('by=change&change=list-5')).toEqual(['change']);
    expect(sizes('by=list&list=list-5')).toEqual([20, 80, false]);
    expect(sizes('by=date&date=2025-02-03')).toEqual([20, 80, false]);
    expect(sizes('by=date&date=3.2.2025')).toEqual(['dateOrder']);
    expect(sizes('by=date&date=3.2.2025&dateOrder=dmy')).toEqual([20, 80, false]);
    expect(sizes('by=date&date=3 Feb 2025')).toEqual([20, 80, false]);
    expect(sizes('by=date&date=February 2025')).toEqual(['date']);
  });

  it('from one case to another, and says which field is wrong', () => {
    expect(sizes('by=free&earlierFrom=C3&earlierTo=C40&laterFrom=C61&laterTo=C90')).toEqual([38, 30, false]);
    expect(sizes('by=free&earlierFrom=C3&earlierTo=C400&laterFrom=C61&laterTo=C90')).toEqual(['earlierTo']);
    expect(sizes('by=free&earlierFrom=C3&earlierTo=C40&laterFrom=C90&laterTo=C61')).toEqual(['laterTo']);
  });

  it('not at all where the order is not known', () => {
    const unordered = { ...record, cases: record.cases.map((one) => ({ ...one, orderKnown: false })) };
    expect(sizes('by=halves', unordered)).toEqual(['by']);
  });
});

it('counts eyes, hands and lists of both, among the cases in which they were entered', () => {
  const { cases, lists } = dated(20, {}, (at) => ({ machine: at < 2 ? 'A' : null, teaching: at === 3 }));
  const some = cases.map((one, at): Case => ({
    ...one,
    facts: at === 0 ? ({} as Case['facts']) : { dense: at % 2 === 1 },
    hands: at > 17 ? { whole: 'mine', steps: { first: 'taken-over' } } : one.hands,
  }));
  expect(between(operation, lists, some.slice(0, 10), some.slice(10))).toEqual([
    { what: 'Dense', earlier: '5 of 9', later: '5 of 10' },
    { what: 'Hands: the whole operation by your own', earlier: '10 of 10', later: '8 of 10' },
    { what: 'Lists', earlier: '2', later: '2' },
    { what: 'Lists with teaching', earlier: '0 of 2', later: '1 of 2' },
    { what: 'Machine', earlier: 'A in 2 lists', later: 'not entered' },
  ]);
});
