import type { TypedFacts } from '../rooms/cases/typed-case';
import type { TypedTimes } from '../rooms/cases/typed-times';
import type { Case, ListRecord, Procedure, When } from '../model';
import type { Store, TypedCase } from './storage/port';

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
export const newList = (label: string | null, when: When): Omit<ListRecord, 'id'> => ({ label, when, ...NO_ANSWERS });

/**
 * Stores a typed case, in one change with its list where that is new. It comes after every case of the record: new
 * operations arrive by typing; older ones come in by file, which has the order.
 */
export const recordTyped = (
  store: Store,
  {
    procedure,
    typed,
    times,
    source,
    recording,
  }: {
    procedure: Procedure;
    typed: TypedFacts;
    times: TypedTimes;
    source?: TypedSource;
    recording?: Case['recording'];
  },
) =>
  store.recordCases(
    typed.list.kind === 'new'
      ? newList(typed.list.label, typed.list.when)
      : typed.list.kind === 'known'
        ? typed.list.id
        : null,
    [typedCase({ procedureId: procedure.id, ...typed }, times, source, recording)],
  );

/** Where the times come from: typed, noted by hand, which is coarser and is said on the case, or timed in a recording here. */
export type TypedSource = Extract<Case['source'], { kind: 'typed' | 'by-hand' | 'timed' }>;

/** A case as typed, before the store has given it an id and its place in time. */
export function typedCase(
  typed: Pick<Case, 'code' | 'procedureId' | 'position' | 'facts' | 'hands' | 'events'>,
  times: TypedTimes,
  source: TypedSource = { kind: 'typed' },
  recording: Case['recording'] = null,
): TypedCase {
  const { code, procedureId, position, facts, hands, events } = typed;
  return {
    code,
    procedureId,
    position,
    orderKnown: true,
    facts,
    factChanges: [],
    hands,
    ...times,
    events,
    energy: null,
    recording,
    source,
    leftOut: null,
    keptAsItIs: null,
    invented: false,
  };
}
