import { againCode, canBeTimedAgain } from './timed-again';
import { stepSecondsOf, waitingOf, timesReturnedTo } from '../../audit';
import { hasClockReadings } from '../../intake';
import { type Case, type Event, type Hands, type Procedure, procedureOf, type SurgeonRecord } from '../../model';
import { changeWords, HIDDEN_UNTIL } from '../../words';
import { capital, clock } from '../../format';
import { leftOutWords } from '../../words/left-out';
import { caseSummary, stretchesInOrder, type CaseSummary } from './case-summary';
import { leavesWith } from './erase-words';
import { placeOfCase, type PlaceOfCase } from './place-of-case';
import { eventWordsOf, reviewWords } from '../forms/event-fields';
import { AS_USUAL, eyeFields, factTexts, factValueWords, type EyeFields } from '../forms/eye-fields';
import { handWords, handsWords } from '../forms/hands-fields';
import { emptyRow, kindOptions, reasonOptions, SPARE_ROWS, stretchRow, type StretchRow } from '../forms/stretch-fields';
import { instantWords, listTitle } from '../forms/when-words';

type Choice = { value: string; label: string };

export type CaseView = {
  id: string;
  code: string;
  version: number;
  procedure: { id: string; name: string };
  list: { id: string; title: string } | null;
  position: number | null;
  place: PlaceOfCase;
  source: string;
  hidden: boolean;
  /** Until when its times are, if they are. */
  hiddenUntil: string;
  /** Under which name it can be timed once more; `null` where it cannot. */
  again: string | null;
  kept: { since: string; why: string } | null;
  leftOut: { reason: string; timesSeen: boolean; at: string } | null;
  summary: CaseSummary | null;
  facts: readonly { label: string; value: string; changed: string | null }[];
  asUsual: boolean;
  eye: { fields: EyeFields; texts: Record<string, string> };
  hands: { words: string; steps: readonly { id: string; label: string; hands: Hands }[]; options: readonly Choice[] };
  /** Empty while the times are hidden. */
  steps: readonly (readonly string[])[];
  stretches: readonly (readonly string[])[];
  /** Can its marks be had as chapters of its recording? */
  chapters: boolean;
  edit: {
    rows: readonly StretchRow[];
    steps: readonly Choice[];
    kinds: readonly Choice[];
    reasons: readonly Choice[];
  } | null;
  events:
    | readonly {
        index: number;
        words: string;
        /** For its review, or for the text of a review that came without. */
        waits: 'review' | 'text' | null;
        reviewed: string | null;
      }[]
    | null;
  eventKinds: readonly Choice[];
  protectedParts: readonly { id: string; label: string; step: string; seen: '' | 'yes' | 'no' }[];
  history: readonly { at: string; what: string }[];
  /** What leaves the record when this case is erased, and what is said of it afterwards. */
  leaves: readonly string[];
};

const HANDS: readonly Hands[] = ['mine', 'someone-else', 'taken-over', 'shared'];

/** Does this event wait for the surgeon's written review? */
export const waitsForReview = (event: Event): boolean => event.serious && !event.nearMiss && event.reviewed === null;

/** Everything of one case. `hidden`: its times belong to a running window and are not shown. */
export function caseView(one: Case, record: SurgeonRecord, hidden: boolean): CaseView {
  const procedure = procedureOf(record, one.procedureId);
  const list = record.lists.find(({ id }) => id === one.listId);
  const inOrder = stretchesInOrder(one, procedure);
  return {
    id: one.id,
    code: one.code,
    version: one.version,
    procedure: { id: procedure.id, name: procedure.name },
    list: list ? { id: list.id, title: listTitle(list) } : null,
    position: one.position,
    place: placeOfCase(one, record),
    source: sourceWords(one),
    hidden,
    hiddenUntil: `${capital(HIDDEN_UNTIL)}.`,
    again: canBeTimedAgain(one, hidden ? new Set([one.id]) : new Set()) ? againCode(one.id) : null,
    kept: one.keptAsItIs ? { since: instantWords(one.keptAsItIs.since), why: one.keptAsItIs.why } : null,
    leftOut: one.leftOut
      ? {
          reason: leftOutWords(one.leftOut.reason),
          timesSeen: one.leftOut.timesSeen,
          at: instantWords(one.leftOut.at),
        }
      : null,
    summary: hidden || one.stretches.length === 0 ? null : caseSummary(one, procedure),
    facts: factRows(one, procedure),
    asUsual: one.facts[AS_USUAL] === true,
    eye: { fields: eyeFields(procedure), texts: factTexts(one.facts, procedure) },
    hands: {
      words: handsWords(one.hands, procedure) ?? 'All mine',
      steps: procedure.steps.map(({ id, label }) => ({ id, label, hands: one.hands.steps[id] ?? one.hands.whole })),
      options: HANDS.map((value) => ({ value, label: handWords(value) })),
    },
    steps: hidden ? [] : stepRows(one, procedure),
    stretches: hidden ? [] : inOrder.map((stretch) => stretchCells(stretch, procedure)),
    chapters: !hidden && hasClockReadings(one),
    edit: hidden
      ? null
      : {
          rows: [...inOrder.map(stretchRow), ...Array.from({ length: SPARE_ROWS }, () => emptyRow)],
          steps: procedure.steps.map(({ id, label }) => ({ value: id, label })),
          kinds: kindOptions,
          reasons: reasonOptions(procedure),
        },
    events:
      one.events?.map((event, index) => ({
        index,
        words: eventWordsOf(event, procedure),
        waits: waitsForReview(event) ? 'review' : event.reviewed?.text === null ? 'text' : null,
        reviewed: reviewWords(event.reviewed),
      })) ?? null,
    eventKinds: procedure.eventKinds.map(({ id, label }) => ({ value: id, label })),
    protectedParts: procedure.steps.flatMap((step) =>
      step.protectedParts.map(({ id, label }) => ({
        id,
        label,
        step: step.label,
        seen:
          one.protectedSeen[id] === undefined
            ? ('' as const)
            : one.protectedSeen[id]
              ? ('yes' as const)
              : ('no' as const),
      })),
    ),
    history: one.history.map(({ at, what }) => ({ at: instantWords(at), what: changeWords(what) })),
    leaves: leavesWith(one, record),
  };
}

function sourceWords({ source }: Case): string {
  switch (source.kind) {
    case 'file':
      return `brought in from a file, row ${source.row}`;
    case 'timed':
      return 'timed here from its recording';
    case 'by-hand':
      return 'noted by hand';
    default:
      return 'typed in';
  }
}

/** Facts with a field of their own, those from files, and what was answered under "anything else" in one line. */
function factRows(one: Case, procedure: Procedure): CaseView['facts'] {
  // The first mark holds what stood there before the times were seen; those after it only what was changed again.
  const changesOf = (factId: string) => {
    const [first, ...rest] = one.factChanges.filter((change) => change.factId === factId);
    if (!first) return null;
    const before = first.before;
    return { before, at: (rest.at(-1) ?? first).at, putBack: (one.facts[factId] ?? null) === before };
  };
  const own = procedure.facts
    .filter(({ id, asked }) => asked === 'row' || (asked === 'file' && one.facts[id] !== undefined))
    .map((fact) => {
      const change = changesOf(fact.id);
      return {
        label: fact.label,
        value: factValueWords(fact, one.facts[fact.id] ?? null),
        changed: change
          ? `before its times were seen: ${factValueWords(fact, change.before)}; changed${change.putBack ? ' and put back' : ''} on ${instantWords(change.at)}`
          : null,
      };
    });
  const more = procedure.facts.filter(({ asked }) => asked === 'more');
  if (more.length === 0) return own;
  const yes = more.filter(({ id }) => one.facts[id] === true).map(({ label }) => label);
  const answered = more.some(({ id }) => one.facts[id] !== undefined);
  const late = more.flatMap((fact) => {
    const change = changesOf(fact.id);
    return change
      ? [`${fact.label} (${factValueWords(fact, change.before)} before${change.putBack ? ', and put back' : ''})`]
      : [];
  });
  return [
    ...own,
    {
      label: 'Anything else',
      value: yes.join(', ') || (answered ? 'none' : 'not entered'),
      changed: late.length > 0 ? `changed after its times were seen: ${late.join(', ')}` : null,
    },
  ];
}

/** Step, step time, waiting, returned to: one row a step that has a stretch. */
function stepRows(one: Case, procedure: Procedure): string[][] {
  return procedure.steps
    .filter(({ id }) => one.stretches.some(({ stepId }) => stepId === id))
    .map(({ id, label }) => {
      const seconds = stepSecondsOf(one, id);
      const waiting = waitingOf(one, id);
      const back = timesReturnedTo(one, id);
      return [
        label,
        seconds === null ? 'not mine' : clock(seconds),
        waiting > 0 ? clock(waiting) : '',
        back === null || back === 0 ? '' : String(back),
      ];
    });
}

const KIND_SAYS = { step: 'step', waiting: 'waiting', protected: 'protected part' } as const;

function stretchCells(stretch: Case['stretches'][number], procedure: Procedure): string[] {
  const reason = reasonOptions(procedure).find(({ value }) => value === stretch.reason)?.label ?? stretch.reason ?? '';
  return [
    procedure.steps.find(({ id }) => id === stretch.stepId)?.label ?? 'between steps',
    KIND_SAYS[stretch.kind] + (reason === '' ? '' : `: ${reason}`),
    stretch.start === null ? '' : clock(stretch.start),
    stretch.end === null ? '' : clock(stretch.end),
    clock(stretch.seconds),
  ];
}
