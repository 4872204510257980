import type { Lasting, StoredResult } from '../../model';
import { lastedSinceWords, lastingWords } from '../../words';
import { instantWords } from '../forms/when-words';

export type LastedView = { head: string; sentence: string };

/**
 * Whether it lasted, as it was read: one answer a following twenty, with the figure of today where that is another.
 * @param read in words, the moment it was read
 * @param today what the record as it is would say, in the same order; shorter where cases are gone
 */
export const lastedWords = (
  stored: StoredResult,
  today: readonly Lasting[],
  label: string,
  read = (at: string) => `on ${instantWords(at)}`,
): LastedView[] =>
  (stored.lasted ?? []).map(({ at, lasting }) => {
    // The joint model that judges lasting gives a slightly different figure for the first window than the one that was
    // read.
    const firstEstimate = stored.outcome.against?.estimate ?? lasting.firstEstimate;
    const { head, sentence } = lastingWords({ ...lasting, firstEstimate }, label);
    const now = today.find(({ nth }) => nth === lasting.nth) ?? null;
    return { head, sentence: `${sentence} ${lastedSinceWords(lasting, now, read(at))}` };
  });

/** Answers that were not read yet, to be stored. */
export const lastedToStore = (stored: StoredResult | undefined, today: readonly Lasting[], at: string) =>
  today
    .filter(({ nth }) => !stored?.lasted?.some(({ lasting }) => lasting.nth === nth))
    .map((lasting) => ({ at, lasting }));
