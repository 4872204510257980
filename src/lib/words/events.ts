import { capital, counted, inHundred } from '../format';

/**
 * What can be said of events. `cases`: how many operations the sentence speaks of; `answered`: in how many events were
 * answered; `upper`: one-sided 95 % bound for none; `low`/`high`: 95 % interval for some. `about`: what nobody can call
 * safe, with its verb; *the step* only where one has been named.
 */
export type EventCount = {
  cases: number;
  answered: number;
  events: number;
  nextDayKnown: number | null;
  upper: number | null;
  low: number | null;
  high: number | null;
  about?: string;
};

/** "this case", "these 20 cases". */
const theseCases = (n: number) => (n === 1 ? 'this case' : `these ${counted(n, 'case')}`);

/** One or two sentences on safety for every combination of answered and not. Zero is never shown as proof. */
export function eventWords(count: EventCount): { head: string; sentences: string[] } {
  const { cases, answered, events } = count;
  if (answered === 0)
    return { head: 'Events were not asked in this record.', sentences: ['Nothing can be said about safety.'] };
  const out = cases - answered;
  if (events === 0 && answered < cases)
    return {
      head: `Events were answered in ${answered} of these ${cases} cases; none in ${answered === 1 ? 'that one' : `those ${answered}`}.`,
      sentences: [
        `Nothing can be said about the other ${out === 1 ? 'one' : out}.`,
        ...(count.upper === null
          ? []
          : [
              `For the ${answered === 1 ? 'one' : answered} answered, rates up to ${inHundred(count.upper)} in 100 cannot be ruled out.`,
            ]),
      ],
    };
  if (events === 0)
    return {
      head: `No event in ${theseCases(cases)} (answered in ${answered} of ${cases}; ${
        count.nextDayKnown === null ? 'next-day course not said' : `next-day course known in ${count.nextDayKnown}`
      }).`,
      sentences: [
        `This cannot show that ${count.about ?? 'the step is'} safe: with a true rate of 5 in 100, ${cases === 1 ? 'one case' : `${cases} cases in a row`} would pass without one ${passWithout(cases)}.`,
        ...(count.upper === null ? [] : [`Rates up to ${inHundred(count.upper)} in 100 cannot be ruled out.`]),
      ],
    };
  return {
    head: `${counted(events, 'event')} in ${counted(answered, 'case')}.`,
    sentences: [
      ...(count.low === null || count.high === null
        ? []
        : [`The true rate could be anywhere from ${inHundred(count.low)} to ${inHundred(count.high)} in 100.`]),
      ...(answered < cases
        ? [
            `Events were not answered in ${out} of these ${cases} cases; nothing can be said about ${out === 1 ? 'that one' : 'those'}.`,
          ]
        : []),
    ],
  };
}

/** Events tied to one step; none is said with the rate it cannot rule out. */
export function stepEventWords({
  cases,
  answered,
  events,
  upper,
  low,
  high,
}: Omit<EventCount, 'nextDayKnown'>): string {
  if (answered === 0) return 'Events were not asked in these cases: nothing can be said about safety.';
  if (events > 0)
    return `${counted(events, 'case')} with an event tied to this step, of ${answered} in which events were answered${
      low === null || high === null
        ? ''
        : `: the true rate could be anywhere from ${inHundred(low)} to ${inHundred(high)} in 100`
    }.`;
  const bound = upper === null ? '' : `0 of ${answered}: the true rate could be up to ${inHundred(upper)} in 100. `;
  return `No event is tied to this step (events answered in ${answered} of ${counted(cases, 'case')}). ${bound}That cannot show that it is safe.`;
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
