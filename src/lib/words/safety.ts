import type { Case, ListRecord } from '../model';
import { eventTally } from '../safety';
import { eventWords } from './events';
import { counted } from '../format';

export type SafetyWords = { head: string; sentences: string[] };

/**
 * What can be said of events in these cases, with denominators: the same on After twenty and in the report.
 * @param cases every case operated in the span, those left out included
 * @param all the whole record: how many of a list were timed
 * @param about what nobody can call safe, with its verb; left out where one step has been named
 */
export function safetyWords(
  cases: readonly Case[],
  all: readonly Case[],
  lists: readonly ListRecord[],
  about?: string,
): SafetyWords {
  if (cases.length === 0) return { head: 'No case yet.', sentences: [] };
  const tally = eventTally(cases, lists, all);
  const whole = cases.length === all.length ? ({ scope: 'record' } as const) : {};
  const { head, sentences } = eventWords({ ...tally, about, ...whole });
  const waiting = tally.unreviewedSerious;
  return {
    head,
    sentences: [
      ...sentences,
      ...(waiting > 0 ? [`${counted(waiting, 'serious event')} ${waiting === 1 ? 'waits' : 'wait'} for review.`] : []),
    ],
  };
}

/** Operations of the same lists that were not timed, in words where there is no drawing of them. */
export function untimedWords(cases: readonly Case[], all: readonly Case[], lists: readonly ListRecord[]): string[] {
  const { untimed } = eventTally(cases, lists, all);
  return untimed
    ? [
        `Untimed operations on the same lists: ${untimed.operated}; events answered for ${untimed.answered}, ${untimed.withEvent || 'none'} written down.`,
      ]
    : [];
}
