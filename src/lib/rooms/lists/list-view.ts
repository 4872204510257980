import { type Case, type ListRecord, type Procedure, procedureOf, type SurgeonRecord } from '../../model';
import { counted } from '../../format';
import { operatedOn } from '../../safety';
import { waitsForReview } from '../cases/case-view';
import { eventWordsOf, noticedOptions, reviewWords } from '../forms/event-fields';
import { AS_USUAL, eyeFields, factTexts, usualTexts, type EyeFields } from '../forms/eye-fields';
import { timesWereSeen } from '../goals/hidden-times';
import { handsForm, type HandsForm } from '../forms/hands-fields';
import { aheadWords, whenText } from '../forms/list-fields';
import { listTitle } from '../forms/when-words';

type Choice = { value: string; label: string };

/** One case of the list as the fields of its row. '' is not entered or not answered. */
export type FactRow = {
  id: string;
  code: string;
  version: number;
  facts: Record<string, string>;
  /** Filled in by "as usual for me". */
  asUsual: boolean;
  hands: HandsForm | { answer: ''; notMine: readonly string[]; takenOverAt: '' };
  events: '' | 'none' | 'yes';
  eventWords: readonly string[];
  /** Kept as it is: shown, not asked. */
  closed: boolean;
  /** Its times have been seen, so a change of facts keeps both values. */
  seen: boolean;
};

export type FactTable = {
  procedure: { id: string; name: string };
  fields: EyeFields;
  usual: Record<string, string>;
  steps: readonly Choice[];
  eventKinds: readonly Choice[];
  rows: readonly FactRow[];
};

/** What is asked once a list, as texts. */
export type ListAnswers = {
  label: string;
  when: string;
  operated: string;
  anaesthesia: string;
  machine: string;
  teaching: '' | 'yes' | 'no';
  eventsAnsweredForAll: '' | 'yes' | 'no';
  nextDayKnown: string;
};

export type ListView = {
  id: string;
  title: string;
  said: string;
  answers: ListAnswers;
  tables: readonly FactTable[];
  untimed: readonly { index: number; words: string; waits: boolean; reviewed: string | null }[];
  steps: readonly Choice[];
  eventKinds: readonly Choice[];
  noticed: readonly Choice[];
};

/** Names of the fields of one case in the form of its list. */
export const rowPrefix = (caseId: string) => `${caseId}.`;
export const factPrefix = (caseId: string) => `${caseId}.fact-`;

const yesNo = (value: boolean | null): '' | 'yes' | 'no' => (value === null ? '' : value ? 'yes' : 'no');
const number = (value: number | null): string => (value === null ? '' : String(value));

/**
 * A list with its cases in order, each a row of fields.
 * @param today ISO date
 */
export function listView(
  list: ListRecord,
  record: SurgeonRecord,
  hidden: ReadonlySet<string>,
  today: string,
): ListView {
  const cases = casesOfList(list, record);
  const procedures = record.procedures.filter(({ id }) => cases.some((one) => one.procedureId === id));
  const main = procedures[0] ?? procedureOf(record, record.profile.procedureId);
  const timed = cases.filter(({ stretches }) => stretches.length > 0).length;
  const operated = operatedOn(list, cases);
  return {
    id: list.id,
    title: listTitle(list),
    said: [
      operated === null
        ? `${counted(cases.length, 'case')} here, ${timed} timed; how many were operated is not said.`
        : `${cases.length} here of ${operated} operated, ${timed} timed.`,
      ...[timed > 0 ? aheadWords(list.when, today, 'it has times') : null].filter((each) => each !== null),
    ].join(' '),
    answers: listAnswers(list),
    tables: procedures.map((procedure) => tableOf(procedure, cases, record, hidden)),
    untimed: list.untimedEvents.map((event, index) => ({
      index,
      words: eventWordsOf(event, main),
      waits: waitsForReview(event),
      reviewed: reviewWords(event.reviewed),
    })),
    steps: choices(main.steps),
    eventKinds: choices(main.eventKinds),
    noticed: noticedOptions,
  };
}

/** What the form of a list shows of it. */
export const listAnswers = (list: ListRecord): ListAnswers => ({
  label: list.label ?? '',
  when: whenText(list.when),
  operated: number(list.operated),
  anaesthesia: list.anaesthesia ?? '',
  machine: list.machine ?? '',
  teaching: yesNo(list.teaching),
  eventsAnsweredForAll: yesNo(list.eventsAnsweredForAll),
  nextDayKnown: number(list.nextDayKnown),
});

const ASKED: Record<keyof ListAnswers, string> = {
  when: 'when',
  label: 'name',
  operated: 'operated in all',
  nextDayKnown: 'next-day course known in',
  anaesthesia: 'anaesthesia',
  machine: 'machine',
  teaching: 'teaching list',
  eventsAnsweredForAll: 'events answered for every operation',
};

/** What is stored of a list where something else was sent, in words: both then stand before the reader. */
export function storedBeside(list: ListRecord, sent: (name: string) => string): string {
  const answers = listAnswers(list);
  const others = (Object.keys(ASKED) as (keyof ListAnswers)[]).filter((name) => answers[name] !== sent(name));
  return (
    others.map((name) => `${ASKED[name]} ${answers[name] || 'not said'}`).join('; ') || 'the same as what you typed'
  );
}

/** In order of place, then of time. */
export function casesOfList(list: Pick<ListRecord, 'id'>, { cases }: Pick<SurgeonRecord, 'cases'>): Case[] {
  return cases
    .filter(({ listId }) => listId === list.id)
    .sort((a, b) => (a.position ?? Infinity) - (b.position ?? Infinity) || a.sequence - b.sequence);
}

const choices = (items: readonly { id: string; label: string }[]): Choice[] =>
  items.map(({ id, label }) => ({ value: id, label }));

function tableOf(
  procedure: Procedure,
  cases: readonly Case[],
  record: SurgeonRecord,
  hidden: ReadonlySet<string>,
): FactTable {
  return {
    procedure: { id: procedure.id, name: procedure.name },
    fields: eyeFields(procedure),
    usual: usualTexts(record.cases, procedure),
    steps: choices(procedure.steps),
    eventKinds: choices(procedure.eventKinds),
    rows: cases
      .filter((one) => one.procedureId === procedure.id)
      .map((one) => ({
        ...rowAnswers(one, procedure),
        asUsual: one.facts[AS_USUAL] === true,
        id: one.id,
        code: one.code,
        version: one.version,
        eventWords: (one.events ?? []).map((event) => eventWordsOf(event, procedure)),
        closed: one.keptAsItIs !== null,
        seen: timesWereSeen(one, hidden),
      })),
  };
}

/**
 * What a row holds now. Whose hands is not yet answered in a case made for its list and never answered since; a case
 * from elsewhere says it, by its own column or by default.
 */
export function rowAnswers(one: Case, procedure: Procedure): Pick<FactRow, 'facts' | 'hands' | 'events'> {
  const fresh = one.events === null && one.stretches.length === 0;
  return {
    facts: factTexts(one.facts, procedure),
    hands: fresh ? { answer: '', notMine: [], takenOverAt: '' } : handsForm(one.hands, procedure),
    events: one.events === null ? '' : one.events.length === 0 ? 'none' : 'yes',
  };
}
