import { capital, counted, inHundred } from '../format';
import { eventBounds, type EventTally, type StepEventTally } from '../safety';

/**
 * What can be said of events. `about`: what nobody can call safe, with its verb; *the step* only where one has been named.
 * `scope`: where these cases are all there are, the sentence is about the record.
 */
export type EventCount = Pick<
  EventTally,
  'cases' | 'answered' | 'events' | 'withEvent' | 'withNone' | 'nextDay' | 'untimed'
> & { about?: string; scope?: 'record' };

/** "this case", "these 20 cases". */
const theseCases = (n: number) => (n === 1 ? 'this case' : `these ${counted(n, 'case')}`);

/** One or two sentences on safety for every combination of answered and not. Zero is never shown as proof. */
export function eventWords(count: EventCount): { head: string; sentences: string[] } {
  const { cases, answered, events, withEvent } = count;
  const bounds = eventBounds(count);
  const out = cases - answered;
  switch (bounds.kind) {
    case 'never-asked': {
      const untimed = count.untimed !== null && count.untimed.answered > 0;
      const where = count.scope === 'record' && !untimed ? 'this record' : theseCases(cases);
      return { head: `Events were not asked in ${where}.`, sentences: ['Nothing can be said about safety.'] };
    }
    case 'only-events':
      return {
        head: `${counted(events, 'event')} ${events === 1 ? 'is' : 'are'} written down, in ${withEvent} of ${theseCases(cases)}.`,
        sentences: [
          `No case is answered with none, so nothing can be said about how often events happen${out > 0 ? `, or about the other ${counted(out, 'case')}` : ''}.`,
        ],
      };
    case 'none':
      return out > 0
        ? {
            head: `Events were answered in ${answered} of ${theseCases(cases)}; none in ${answered === 1 ? 'that one' : `those ${answered}`}.`,
            sentences: [
              `Nothing can be said about the other ${out === 1 ? 'one' : out}.`,
              `For the ${answered === 1 ? 'one' : answered} answered, rates up to ${inHundred(bounds.upper95)} in 100 cannot be ruled out.`,
            ],
          }
        : {
            head: `No event in ${theseCases(cases)} (answered in ${answered} of ${cases}; ${nextDayWords(count)}).`,
            sentences: [
              `This cannot show that ${count.about ?? 'the step is'} safe: with a true rate of 5 in 100, ${cases === 1 ? 'one case' : `${cases} cases in a row`} would pass without one ${passWithout(cases)}.`,
              `Rates up to ${inHundred(bounds.upper95)} in 100 cannot be ruled out.`,
            ],
          };
    case 'some':
      return {
        head:
          events === withEvent
            ? `${counted(events, 'event')} in ${counted(answered, 'case')}.`
            : `${counted(events, 'event')}, in ${withEvent} of ${counted(answered, 'case')}.`,
        sentences: [
          `The true rate could be anywhere from ${inHundred(bounds.low)} to ${inHundred(bounds.high)} in 100.`,
          ...(out > 0
            ? [
                `Events were not answered in ${out} of ${theseCases(cases)}; nothing can be said about ${out === 1 ? 'that one' : 'those'}.`,
              ]
            : []),
        ],
      };
  }
}

/** Lists tell it for every operation, timed or not: where they hold more than these cases, it is said of how many. */
function nextDayWords({ nextDay, cases }: EventCount): string {
  if (nextDay === null) return 'next-day course not said';
  const of = nextDay.of === cases ? '' : ` of the ${nextDay.of} operated on their lists`;
  return `next-day course known in ${nextDay.known}${of}`;
}

/** Events tied to one step; none is said with the rate it cannot rule out, and what may belong here beside it. */
export function stepEventWords(tally: StepEventTally): string {
  const { cases, answered, withEvent, mayBelong } = tally;
  const bounds = eventBounds(tally);
  if (bounds.kind === 'never-asked')
    return `Events were not asked in ${theseCases(cases)}: nothing can be said about safety.`;
  const belong =
    mayBelong === 0
      ? ''
      : `; ${counted(mayBelong, 'case')} ${mayBelong === 1 ? 'has' : 'have'} an event that is tied to no step and may belong here`;
  const said =
    withEvent === 0
      ? `No event is tied to this step (events answered in ${answered} of ${counted(cases, 'case')})${belong}.`
      : `${counted(withEvent, 'case')} with an event tied to this step, of ${answered} in which events were answered${belong}.`;
  switch (bounds.kind) {
    case 'only-events':
      return `${said} No case is answered with none, so nothing can be said about how often.`;
    case 'none':
      return `${said} 0 of ${answered}: the true rate could be up to ${inHundred(bounds.upper95)} in 100. That cannot show that it is safe.`;
    case 'some':
      return `${said} The true rate could be anywhere from ${inHundred(bounds.low)} to ${inHundred(bounds.high)} in 100.`;
  }
}

/** The chance that a true rate of 5 in 100 shows nothing in n cases, as a phrase. */
function passWithout(n: number): string {
  const chance = 0.95 ** n;
  if (chance > 0.5) return 'more often than not';
  if (chance > 1 / 3) return 'more than one time in three';
  const oneIn = Math.max(3, Math.round(1 / chance));
  return oneIn > 100 ? 'less than 1 time in 100' : `about 1 time in ${oneIn}`;
}

/** A share of cases with its 95 % interval. */
type Share = { taken: number; of: number; low: number; high: number };

/** In how many cases somebody else took over. `what` was taken over: a step, or the operation. */
export function takeoverWords({ taken, of, low, high }: Share, what: string): string {
  if (taken === 0) return `No takeover of ${what} is written down in ${theseCases(of)}.`;
  return `${capital(what)} was taken over in ${taken} of ${counted(of, 'case')} (the true share could be ${inHundred(low)} to ${inHundred(high)} in 100).`;
}
