import { same, type Case, type Event, type FactValue, type LeftOutReason, type Procedure } from '../../model';
import { leftOutWords } from '../../words/left-out';
import { eventWordsOf } from '../forms/event-fields';
import { AS_USUAL, factValueWords } from '../forms/eye-fields';
import { handsWords } from '../forms/hands-fields';

/** A changed case and the line its history gets, with what stood there before; `null` where nothing differs. */
export type CaseChange = { case: Case; what: string } | null;

type Facts = Readonly<Record<string, FactValue>>;

/**
 * New facts of the eye. A fact changed after the times of the case were seen keeps both values and is marked: an eye
 * called hard only after a long time was read would explain the time away.
 */
export function withFacts(one: Case, facts: Facts, procedure: Procedure, timesSeen: boolean, now: string): CaseChange {
  const ids = [...new Set([...Object.keys(one.facts), ...Object.keys(facts)])];
  const changed = ids.filter((id) => one.facts[id] !== facts[id]);
  if (changed.length === 0) return null;
  const told = changed.filter((id) => id !== AS_USUAL);
  const words = told.map((id) => {
    const fact = procedure.facts.find((each) => each.id === id);
    const of = (value: FactValue | undefined) => factValueWords(fact, value ?? null);
    return `${fact?.label ?? id}: ${of(one.facts[id])} → ${of(facts[id])}`;
  });
  const late = timesSeen
    ? told.map((factId) => ({ factId, before: one.facts[factId] ?? null, after: facts[factId] ?? null, at: now }))
    : [];
  return {
    case: { ...one, facts: { ...facts }, factChanges: [...one.factChanges, ...late] },
    what: `${words.join('; ') || (facts[AS_USUAL] ? 'Facts confirmed as usual' : 'Facts no longer marked as usual')}${timesSeen && words.length > 0 ? ' (after its times were seen)' : ''}`,
  };
}

/** The times of a case as a line of history keeps them. */
export const timesInSeconds = ({ stretches }: Pick<Case, 'stretches'>): string =>
  stretches
    .map(({ stepId, kind, start, end, seconds }) => `${stepId ?? kind} ${start === null ? seconds : `${start}–${end}`}`)
    .join(', ') || 'none';

export function withTimes(one: Case, stretches: Case['stretches']): CaseChange {
  if (same(stretches, one.stretches)) return null;
  return { case: { ...one, stretches }, what: `Times changed; before, in seconds: ${timesInSeconds(one)}` };
}

export function withHands(one: Case, hands: Case['hands'], procedure: Procedure): CaseChange {
  if (same(one.hands, hands)) return null;
  const say = (value: Case['hands']) => handsWords(value, procedure) ?? 'all mine';
  return { case: { ...one, hands }, what: `Hands: ${say(one.hands)} → ${say(hands)}` };
}

export function withEvents(one: Case, events: Event[] | null, procedure: Procedure): CaseChange {
  if (same(one.events, events)) return null;
  const say = (value: readonly Event[] | null) =>
    value === null
      ? 'not answered'
      : value.length === 0
        ? 'none'
        : value.map((event) => eventWordsOf(event, procedure)).join(' + ');
  return { case: { ...one, events }, what: `Events: ${say(one.events)} → ${say(events)}` };
}

/** Several changes to one case as one, with one line of history. */
export function together(one: Case, changes: readonly ((at: Case) => CaseChange)[]): CaseChange {
  const said: string[] = [];
  let at = one;
  for (const change of changes) {
    const done = change(at);
    if (!done) continue;
    at = done.case;
    said.push(done.what);
  }
  return said.length === 0 ? null : { case: at, what: said.join('. ') };
}

export function leaveOut(one: Case, reason: LeftOutReason, timesSeen: boolean, now: string): NonNullable<CaseChange> {
  return {
    case: { ...one, leftOut: { reason, timesSeen, at: now } },
    what: `Left out: ${leftOutWords(reason)} (times ${timesSeen ? 'had been seen' : 'not seen'})`,
  };
}

/** While left out, a case is in no window, so its times can be seen; the mark of that stays when it counts again. */
export const markSeen = ({ timesSeenWhileLeftOut, leftOut, stretches }: Case): Pick<Case, 'timesSeenWhileLeftOut'> =>
  timesSeenWhileLeftOut || (leftOut !== null && stretches.length > 0) ? { timesSeenWhileLeftOut: true } : {};

export function countAgain(one: Case): CaseChange {
  if (one.leftOut === null) return null;
  return {
    case: { ...one, ...markSeen(one), leftOut: null },
    what: `Counted again; it had been left out: ${leftOutWords(one.leftOut.reason)}`,
  };
}

export const keepAsItIs = (one: Case, why: string, now: string): NonNullable<CaseChange> => ({
  case: { ...one, keptAsItIs: { since: now, why } },
  what: `Kept as it is: ${why}`,
});

export function liftKeep(one: Case, why: string): CaseChange {
  if (one.keptAsItIs === null) return null;
  return {
    case: { ...one, keptAsItIs: null },
    what: `No longer kept as it is: ${why}. It had been since ${one.keptAsItIs.since.slice(0, 10)}: ${one.keptAsItIs.why}`,
  };
}
