import { type Case, type ListRecord, procedureOf, type SurgeonRecord } from '../../model';
import { knownLists } from '../../audit';
import { counted } from '../../format';
import { operatedOn } from '../../safety';
import { leftOutWords } from '../../words/left-out';
import { caseSummary, type CaseSummary } from './case-summary';
import { factsLine, missingFacts } from '../forms/eye-fields';
import { handsWords } from '../forms/hands-fields';
import { stepInitials } from './step-initials';
import { listTitle } from '../forms/when-words';

export const shows = ['all', 'not-answered', 'facts-missing', 'left-out'] as const;
export type Show = (typeof shows)[number];
export type CasesFilter = { procedure: string; show: Show; code: string; page: number };

export type CaseRow = {
  id: string;
  code: string;
  /** null: no times, or times that are not shown while a window runs; `said` tells which. */
  summary: CaseSummary | null;
  said: string;
  facts: string;
  hands: string | null;
  events: string;
  marks: readonly string[];
};

export type ListGroup = { id: string | null; title: string; said: string; rows: readonly CaseRow[] };

export type CasesView = {
  total: number;
  /** How many cases and lists; then what of events and of cases left out. */
  head: string;
  rest: string;
  filter: CasesFilter;
  procedures: readonly { id: string; name: string }[];
  groups: readonly ListGroup[];
  found: number;
  pages: number;
  /** Cases whose times are not shown because a window runs. */
  hidden: number;
  /** What the letters of the small drawings mean, by procedure. */
  letters: readonly { procedure: string; steps: readonly { letters: string; label: string }[] }[];
};

/** A page holds whole lists, until at least this many cases: short enough to draw, long enough for some weeks. */
const PAGE_CASES = 40;

/** The query of the page's address as a filter; anything unknown falls back to everything. */
export function filterFrom(query: { get(name: string): string | null }): CasesFilter {
  const page = Number(query.get('page') ?? '1');
  return {
    procedure: query.get('procedure') ?? '',
    show: shows.find((each) => each === query.get('show')) ?? 'all',
    code: (query.get('code') ?? '').trim(),
    page: Number.isInteger(page) && page > 0 ? page : 1,
  };
}

/** The record by list, newest first, filtered. `hidden`: cases whose times are not to be shown. */
export function casesView(record: SurgeonRecord, hidden: ReadonlySet<string>, filter: CasesFilter): CasesView {
  const { cases, lists } = record;
  const found = cases.filter((one) => fits(one, record, filter));
  const pages = pagesOf(groupByList(found));
  const page = Math.min(filter.page, Math.max(1, pages.length));
  const listById = new Map(lists.map((list) => [list.id, list]));
  const used = record.procedures.filter(({ id }) => cases.some((one) => one.procedureId === id));
  return {
    total: cases.length,
    ...summaryWords(record),
    filter: { ...filter, page },
    procedures: used.map(({ id, name }) => ({ id, name })),
    groups: (pages[page - 1] ?? []).map(({ listId, cases: own }) => {
      const list = listId === null ? undefined : listById.get(listId);
      return {
        id: listId,
        title: list ? listTitle(list) : 'No list known',
        said: list ? listWords(list, cases) : 'Neighbouring cases, in the order they came in.',
        rows: own.map((one) => rowOf(one, record, hidden)),
      };
    }),
    found: found.length,
    pages: pages.length,
    hidden: cases.filter(({ id }) => hidden.has(id)).length,
    letters: used.map((procedure) => {
      const initials = stepInitials(procedure);
      const steps = procedure.steps.map(({ id, label }) => ({ letters: initials[id] ?? '', label }));
      return { procedure: procedure.name, steps };
    }),
  };
}

function fits(one: Case, record: SurgeonRecord, { procedure, show, code }: CasesFilter): boolean {
  if (procedure !== '' && one.procedureId !== procedure) return false;
  if (code !== '' && !one.code.toLowerCase().includes(code.toLowerCase())) return false;
  if (show === 'not-answered') return one.events === null;
  if (show === 'facts-missing') return missingFacts(one, procedureOf(record, one.procedureId)).length > 0;
  if (show === 'left-out') return one.leftOut !== null;
  return true;
}

type Group = { listId: string | null; cases: Case[] };

/** Newest list first, the cases of a list in their order. Cases without a list stay together as long as no list lies between. */
function groupByList(cases: readonly Case[]): Group[] {
  const groups: Group[] = [];
  const open = new Map<string, Group>();
  for (const one of cases) {
    const last = groups.at(-1);
    const known =
      one.listId === null
        ? last?.listId === null && last.cases.length < PAGE_CASES
          ? last
          : undefined
        : open.get(one.listId);
    if (known) known.cases.push(one);
    else {
      const group = { listId: one.listId, cases: [one] };
      groups.push(group);
      if (one.listId !== null) open.set(one.listId, group);
    }
  }
  return groups.reverse();
}

function pagesOf(groups: readonly Group[]): Group[][] {
  const pages: Group[][] = [];
  let room = 0;
  for (const group of groups) {
    if (room <= 0) {
      pages.push([]);
      room = PAGE_CASES;
    }
    pages.at(-1)?.push(group);
    room -= group.cases.length;
  }
  return pages;
}

function rowOf(one: Case, record: SurgeonRecord, hidden: ReadonlySet<string>): CaseRow {
  const procedure = procedureOf(record, one.procedureId);
  const away = hidden.has(one.id);
  const none = one.stretches.length === 0;
  const missing = missingFacts(one, procedure).length;
  return {
    id: one.id,
    code: one.code,
    summary: away || none ? null : caseSummary(one, procedure),
    said: away ? 'Times hidden' : none ? 'No times yet' : '',
    facts: factsLine(one.facts, procedure) || 'No facts entered',
    hands: handsWords(one.hands, procedure),
    events: eventsInShort(one),
    marks: [
      ...(one.leftOut ? [`Left out: ${leftOutWords(one.leftOut.reason)}`] : []),
      ...(one.keptAsItIs ? ['Kept as it is'] : []),
      ...(missing > 0 && Object.keys(one.facts).length > 0 ? [`${counted(missing, 'fact')} missing`] : []),
    ],
  };
}

function eventsInShort({ events }: Case): string {
  if (events === null) return 'Events not answered';
  if (events.length === 0) return 'No event';
  const waiting = events.filter((event) => event.serious && !event.nearMiss && !event.reviewed).length;
  return counted(events.length, 'event') + (waiting > 0 ? ', waiting for your review' : '');
}

function listWords(list: ListRecord, cases: readonly Case[]): string {
  const here = cases.filter(({ listId }) => listId === list.id);
  const operated = operatedOn(list, here);
  return [
    operated === null ? counted(here.length, 'case') : `${here.length} here of ${operated} operated`,
    ...(list.anaesthesia ? [list.anaesthesia] : []),
    ...(list.teaching ? ['teaching list'] : []),
  ].join(', ');
}

function summaryWords({ cases }: SurgeonRecord): Pick<CasesView, 'head' | 'rest'> {
  const lists = knownLists(cases);
  const unanswered = cases.filter(({ events }) => events === null).length;
  const left = cases.filter(({ leftOut }) => leftOut !== null).length;
  return {
    head: `${counted(cases.length, 'case')}${lists > 0 ? ` in ${counted(lists, 'list')}` : ', lists not known'}.`,
    rest: [
      unanswered === 0
        ? 'Events are answered in all of them.'
        : unanswered === cases.length
          ? 'Events were not answered in any of them.'
          : `Events are not answered in ${unanswered}.`,
      ...(left > 0 ? [`${left} left out.`] : []),
    ].join(' '),
  };
}
