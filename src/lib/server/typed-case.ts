import type { SurgeonRecord, Case, Procedure, When } from '../model';
import type { TypedFacts } from '../rooms/cases/typed-case';
import type { TypedTimes } from '../rooms/cases/typed-times';
import type { Store } from './storage/port';

const NO_ANSWERS = {
  operated: null,
  anaesthesia: null,
  machine: null,
  teaching: null,
  eventsAnsweredForAll: null,
  untimedEvents: [],
  nextDayKnown: null,
};

/** A list with nothing said about it yet but its name and when it was. */
export const newList = (store: Store, label: string | null, when: When) =>
  store.recordList({ label, when, ...NO_ANSWERS });

/**
 * Stores a typed case, and its list where that is new. It comes after every case of the record: typing is how new
 * operations arrive; older ones come in by file, which knows the order.
 */
export async function recordTyped(
  store: Store,
  record: SurgeonRecord,
  {
    procedure,
    typed,
    times,
    source,
  }: { procedure: Procedure; typed: TypedFacts; times: TypedTimes; source?: TypedSource },
): Promise<Case> {
  const listId =
    typed.list.kind === 'new'
      ? (await newList(store, typed.list.label, typed.list.when)).id
      : typed.list.kind === 'known'
        ? typed.list.id
        : null;
  return store.recordCase(typedCase(record, { procedureId: procedure.id, listId, ...typed }, times, source));
}

/** Where typed times come from: read off a recording, or noted by hand, which is coarser and is said on the case. */
export type TypedSource = Extract<Case['source'], { kind: 'typed' | 'by-hand' }>;

/** A case as typed, at the end of the record, before the store has given it an id. */
export function typedCase(
  record: Pick<SurgeonRecord, 'cases'>,
  typed: Pick<Case, 'code' | 'procedureId' | 'listId' | 'position' | 'facts' | 'hands' | 'events'>,
  times: TypedTimes,
  source: TypedSource = { kind: 'typed' },
): Omit<Case, 'id' | 'version' | 'history'> {
  const { code, procedureId, listId, position, facts, hands, events } = typed;
  return {
    code,
    procedureId,
    listId,
    position,
    sequence: Math.floor(record.cases.reduce((last, { sequence }) => Math.max(last, sequence), 0)) + 1,
    orderKnown: true,
    facts,
    factChanges: [],
    hands,
    ...times,
    events,
    energy: null,
    recording: null,
    source,
    leftOut: null,
    keptAsItIs: null,
    invented: false,
  };
}
