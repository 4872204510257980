import type { Case, ListRecord } from '../../model';
import { ORDER_FIELD, whenFromFields } from '../forms/list-fields';
import { listTitle, monthWords } from '../forms/when-words';

/** How a record is parted in two; by fields of an address. */
export const SPLITS = ['halves', 'years', 'change', 'list', 'date', 'free'] as const;
export type SplitBy = (typeof SPLITS)[number];

export type AskedSplit = { by: SplitBy } & Record<
  | 'year'
  | 'change'
  | 'list'
  | 'date'
  | 'dateDay'
  | typeof ORDER_FIELD
  | 'earlierFrom'
  | 'earlierTo'
  | 'laterFrom'
  | 'laterTo',
  string
>;

export type Split =
  | {
      kind: 'split';
      earlier: readonly Case[];
      later: readonly Case[];
      /** Fixed before times were looked at. */ fixed: boolean;
    }
  | { kind: 'cannot'; field: string; because: string };

export type Choice = { value: string; label: string };
export type SplitChoices = { years: readonly Choice[]; changes: readonly Choice[]; lists: readonly Choice[] };

export function askedSplit(query: URLSearchParams): AskedSplit {
  const text = (name: string) => (query.get(name) ?? '').trim();
  return {
    by: SPLITS.find((each) => each === query.get('by')) ?? 'halves',
    year: text('year'),
    change: text('change'),
    list: text('list'),
    date: text('date'),
    dateDay: text('dateDay'),
    dateOrder: text(ORDER_FIELD),
    earlierFrom: text('earlierFrom'),
    earlierTo: text('earlierTo'),
    laterFrom: text('laterFrom'),
    laterTo: text('laterTo'),
  };
}

/** The two stretches asked for. @param cases those that count and may be seen, in order of time */
export function splitOf(asked: AskedSplit, cases: readonly Case[], lists: readonly ListRecord[]): Split {
  if (cases.length === 0) return no('by', 'There is no case to compare yet.');
  if (!cases.every(({ orderKnown }) => orderKnown))
    return no('by', 'The order of some cases in time is not known, so there is no earlier and no later.');
  switch (asked.by) {
    case 'halves':
      return at(middleOf(cases), cases, true);
    case 'years':
      return years(asked.year, cases, lists);
    case 'change':
      return atList(asked.change, 'change', changesOf(cases, lists), cases, true);
    case 'list':
      return atList(asked.list, 'list', listsOf(cases, lists), cases, false);
    case 'date':
      return byDate(asked, cases, lists);
    default:
      return free(asked, cases);
  }
}

/** What can be chosen in this record. */
export const splitChoices = (cases: readonly Case[], lists: readonly ListRecord[]): SplitChoices => ({
  years: yearPairs(cases, lists).map(({ year, before }) => ({ value: year, label: `${year} against ${before}` })),
  changes: changesOf(cases, lists),
  lists: listsOf(cases, lists),
});

const no = (field: string, because: string): Split => ({ kind: 'cannot', field, because });
const at = (place: number, cases: readonly Case[], fixed: boolean): Split => ({
  kind: 'split',
  earlier: cases.slice(0, place),
  later: cases.slice(place),
  fixed,
});

/** Where a list begins, nearest to the middle: a list is not torn apart. */
function middleOf(cases: readonly Case[]): number {
  const middle = Math.floor(cases.length / 2);
  const begins = [...cases.keys()].filter(
    (place) => place > 0 && (cases[place]?.listId === null || cases[place]?.listId !== cases[place - 1]?.listId),
  );
  return begins.reduce(
    (best, place) => (Math.abs(place - middle) < Math.abs(best - middle) ? place : best),
    begins[0] ?? middle,
  );
}

const dayOf = (one: Case, whens: ReadonlyMap<string, ListRecord>): string | null => {
  const when = one.listId === null ? undefined : whens.get(one.listId)?.when;
  return when?.kind === 'date' ? when.date : when?.kind === 'month' ? when.month : null;
};
const byId = (lists: readonly ListRecord[]) => new Map(lists.map((list) => [list.id, list]));

function yearPairs(cases: readonly Case[], lists: readonly ListRecord[]): { year: string; before: string }[] {
  const whens = byId(lists);
  const found = [...new Set(cases.flatMap((one) => dayOf(one, whens)?.slice(0, 4) ?? []))].sort();
  return found
    .slice(1)
    .map((year, index) => ({ year, before: found[index] ?? '' }))
    .reverse();
}

function years(year: string, cases: readonly Case[], lists: readonly ListRecord[]): Split {
  const pairs = yearPairs(cases, lists);
  const pair = year === '' ? pairs[0] : pairs.find((each) => each.year === year);
  if (!pair)
    return no(
      'year',
      pairs.length === 0 ? 'The record holds dated cases of one year at most.' : 'There is no such year.',
    );
  const whens = byId(lists);
  const of = (wanted: string) => cases.filter((one) => dayOf(one, whens)?.startsWith(wanted));
  return { kind: 'split', earlier: of(pair.before), later: of(pair.year), fixed: true };
}

/** Lists in the order of their first case, from the second on. */
function listsOf(cases: readonly Case[], lists: readonly ListRecord[]): Choice[] {
  const records = byId(lists);
  const ids = [...new Set(cases.flatMap(({ listId }) => listId ?? []))];
  return ids.slice(1).flatMap((id) => {
    const list = records.get(id);
    return list ? [{ value: id, label: listTitle(list) }] : [];
  });
}

/** Lists from which on the machine or the anaesthesia is another than before: changes dated in the record itself. */
function changesOf(cases: readonly Case[], lists: readonly ListRecord[]): Choice[] {
  const records = byId(lists);
  const order = [...new Set(cases.flatMap(({ listId }) => listId ?? []))].flatMap((id) => records.get(id) ?? []);
  const last: Partial<Record<'machine' | 'anaesthesia', string>> = {};
  return order.flatMap((list) =>
    (['machine', 'anaesthesia'] as const).flatMap((what) => {
      const [before, now] = [last[what], list[what]];
      if (now === null) return [];
      last[what] = now;
      const month = list.when.kind === 'date' ? list.when.date : list.when.kind === 'month' ? list.when.month : null;
      return before === undefined || before === now
        ? []
        : [
            {
              value: list.id,
              label: `${what} ${now} after ${before}, from ${month ? monthWords(month) : listTitle(list)} on`,
            },
          ];
    }),
  );
}

function atList(id: string, field: string, offered: readonly Choice[], cases: readonly Case[], fixed: boolean): Split {
  const place = cases.findIndex(({ listId }) => listId === id);
  if (id === '' || place < 0 || !offered.some(({ value }) => value === id))
    return no(field, id === '' ? 'Choose one.' : 'The record has no such list.');
  return at(place, cases, fixed);
}

function byDate(asked: AskedSplit, cases: readonly Case[], lists: readonly ListRecord[]): Split {
  const { date: text, dateDay, dateOrder } = asked;
  const fields = { date: [text], dateDay: [dateDay], [ORDER_FIELD]: [dateOrder] };
  const { when, errors } = whenFromFields(fields, 'date', DAY_PROBLEM);
  const [wrong] = errors;
  if (wrong) return no(wrong.field, wrong.message);
  if (when?.kind !== 'date') return no('date', DAY_PROBLEM);
  const { date } = when;
  const whens = byId(lists);
  // Of a list known by its month alone it cannot be said on which side of a day within that month it lies.
  const side = (one: Case) => {
    const day = dayOf(one, whens);
    return day === null || day === date.slice(0, 7) ? null : day < date;
  };
  return {
    kind: 'split',
    earlier: cases.filter((one) => side(one) === true),
    later: cases.filter((one) => side(one) === false),
    fixed: false,
  };
}

const DAY_PROBLEM = 'Give a day as you write it: 12.3.2026, 12 March 2026 or 2026-03-12.';

function free(asked: AskedSplit, cases: readonly Case[]): Split {
  const stretch = (from: 'earlierFrom' | 'laterFrom', to: 'earlierTo' | 'laterTo'): readonly Case[] | Split => {
    const [first, last] = [from, to].map((field) => cases.findIndex(({ code }) => code === asked[field])) as [
      number,
      number,
    ];
    if (first < 0) return no(from, unknown(asked[from]));
    if (last < 0) return no(to, unknown(asked[to]));
    return first <= last ? cases.slice(first, last + 1) : no(to, `${asked[to]} comes before ${asked[from]}.`);
  };
  const [earlier, later] = [stretch('earlierFrom', 'earlierTo'), stretch('laterFrom', 'laterTo')];
  if ('kind' in earlier) return earlier;
  if ('kind' in later) return later;
  return { kind: 'split', earlier, later, fixed: false };
}

const unknown = (code: string) =>
  code === '' ? 'Give the code of a case.' : `No case that can be compared has the code "${code}".`;
