import type { Case, Reflection } from '../../model';
import { eventBounds, eventTally, takeovers } from '../../safety';
import { eventWords } from '../../words';
import { monthWords } from '../when-words';
import type { ReportRecord, ReportView } from './report';

/** The month of an instant, in words. */
export const monthOf = (at: string): string => monthWords(at.slice(0, 7));

/** What can be said of events in these cases, with denominators, untimed operations and takeovers. */
export function safetySection(
  cases: readonly Case[],
  record: ReportRecord,
  stepId: string | null,
): { strong: string; lines: string[] } {
  const tally = eventTally(cases, record.lists, record.cases);
  const bounds = eventBounds(tally);
  const said = eventWords({
    cases: tally.cases,
    answered: tally.answered,
    events: tally.withEvent,
    nextDayKnown: tally.nextDay?.known ?? null,
    upper: bounds.kind === 'none' ? bounds.upper95 : null,
    low: bounds.kind === 'some' ? bounds.low : null,
    high: bounds.kind === 'some' ? bounds.high : null,
  });
  const taken = stepId === null ? null : takeovers(cases, stepId);
  return {
    strong: said.head,
    lines: [
      ...said.sentences,
      ...(tally.untimed
        ? [
            `Untimed operations on the same lists: ${tally.untimed.operated}; events answered for ${tally.untimed.answered}, ${tally.untimed.withEvent || 'none'} written down.`,
          ]
        : []),
      ...(taken && taken.taken > 0 ? [`The step was taken over in ${taken.taken} of ${taken.of} cases.`] : []),
    ],
  };
}

/** The reflections ticked, with their month; one of which nothing may go out is not there. */
export const ticked = (reflections: readonly Reflection[], ids: readonly string[]): ReportView['notes'] =>
  reflections
    .filter((each) => ids.includes(each.id) && (each.saw !== '' || each.willTry !== ''))
    .map((each) => ({ month: monthOf(each.at), saw: each.saw, willTry: each.willTry }));
