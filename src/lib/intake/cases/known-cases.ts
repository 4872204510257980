import type { Case, Event, NewCase, Procedure } from '../../model';
import { parted, type Steps } from '../../turns';
import type { Ledger } from '../ledger';
import { weights } from '../weights';
import { copiesIn } from './copies';
import { differencesOf, namesOf, plainNames, type Difference } from './known-differences';

/** A code that is already in the record: the same values, or which differ, old beside new. */
export type KnownCase = {
  code: string;
  row: number;
  caseId: string;
  same: boolean;
  /** Something that stands there would change, so it is asked; else the file only fills in. */
  conflicts: boolean;
  /** The case with what nobody had entered filled in and every old value kept; `null` where that changes nothing. */
  filled: NewCase | null;
  /** Kept as it is: nothing of the file goes into it. */
  closed: boolean;
  /** The file says that there was none; the event in the record stays. */
  eventStays: boolean;
  differences: Difference[];
};

/**
 * Finds cases of a file whose code is already in the record. What the file does not speak of stays as it is, what nobody
 * had entered is filled in, and an event is always added: none is ever lost to a choice about other values. Where old and
 * new differ they are shown beside each other, and the new is only taken when that is chosen.
 *
 * @param known.handsSaid the cases for which the file says whose hands
 * @param known.freshCodes the codes of the file were replaced by new ones: a case is then known again by its times
 * @returns the cases, those of the record completed by what stands there; and which are known
 */
export function* knownCases(
  cases: readonly NewCase[],
  {
    existing,
    handsSaid,
    procedures,
    freshCodes,
  }: {
    existing: readonly Case[];
    handsSaid: ReadonlySet<NewCase>;
    procedures: readonly Procedure[];
    freshCodes: boolean;
  },
  ledger: Ledger,
): Steps<{ cases: NewCase[]; known: KnownCase[] }> {
  const byCode = new Map(existing.map((one) => [one.code, one]));
  const names = new Map(procedures.map((procedure) => [procedure.id, namesOf(procedure)]));
  const copyOf = copiesIn(existing);
  const known: KnownCase[] = [];
  const completed: NewCase[] = [];
  for (const part of parted(cases)) {
    yield part.length * weights.row;
    for (const one of part) {
      const copied = byCode.has(one.code) ? null : copyOf(one);
      const before = byCode.get(one.code) ?? (freshCodes ? copied : null);
      if (!before) {
        if (copied)
          ledger.query(
            one.row,
            null,
            one.code,
            `The times are those of "${copied.code}", which is in the record. If it is the same operation, leave this row out or give it that code.`,
          );
        completed.push(one);
        continue;
      }
      const said = handsSaid.has(one);
      const coming = { ...one, code: before.code };
      const [after, filled] = [newOver(before, coming, said), filledIn(before, coming, said)];
      const words = names.get(after.procedureId) ?? plainNames;
      const differences = differencesOf(before, after, words);
      const same = differences.length === 0;
      const fills = differencesOf(before, filled, words);
      const closed = before.keptAsItIs !== null;
      const eventStays = one.events?.length === 0 && (before.events ?? []).length > 0;
      known.push({
        code: before.code,
        row: one.row,
        caseId: before.id,
        same,
        conflicts: fills.length < differences.length,
        filled: fills.length > 0 ? filled : null,
        closed,
        eventStays,
        differences,
      });
      completed.push(after);
    }
  }
  return { cases: completed, known };
}

/** The new values. A file that does not speak of something has not said that it is not there. */
function newOver(before: Case, after: NewCase, handsSaid: boolean): NewCase {
  const timed = after.stretches.length > 0;
  return {
    ...after,
    // The row of a sheet is not a place decided again: where one stands, it stays.
    position: before.position ?? after.position,
    facts: { ...before.facts, ...after.facts },
    hands: handsSaid ? after.hands : before.hands,
    stretches: timed ? after.stretches : before.stretches,
    returnsNoted: timed ? after.returnsNoted : before.returnsNoted,
    events: eventsOfBoth(before.events, after.events),
    protectedSeen: { ...before.protectedSeen, ...after.protectedSeen },
    energy: after.energy ?? before.energy,
    recording: after.recording ?? before.recording,
  };
}

/** The old values, and the new ones only where nothing stood. */
function filledIn(before: Case, after: NewCase, handsSaid: boolean): NewCase {
  // Whose hands of a case made for its list is not answered yet, whatever the record holds for it.
  const handsOpen = before.events === null && before.stretches.length === 0;
  const timed = before.stretches.length > 0;
  return {
    ...newOver(before, after, handsSaid && handsOpen),
    procedureId: before.procedureId,
    facts: { ...after.facts, ...before.facts },
    stretches: timed ? before.stretches : after.stretches,
    returnsNoted: timed ? before.returnsNoted : after.returnsNoted,
    protectedSeen: { ...after.protectedSeen, ...before.protectedSeen },
    energy: before.energy ?? after.energy,
    recording: before.recording ?? after.recording,
  };
}

/**
 * Events of the record stay as they are, with their reviews: a review is written here, and a file gives its month at most
 * and often not its text. A file that says none, or says less of them, takes none away; what it names beside them is added.
 */
function eventsOfBoth(before: Case['events'], after: Case['events']): Case['events'] {
  if (before === null || before.length === 0) return after ?? before;
  const known = (one: Event) =>
    before.some(({ kind, stepId }) => kind === one.kind && (one.stepId === null || stepId === one.stepId));
  return [...before, ...(after ?? []).filter((one) => !known(one))];
}
