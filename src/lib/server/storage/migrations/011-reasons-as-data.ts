import type { Migration } from './migration';

type Raw = Record<string, unknown>;

const raw = (value: unknown): Raw | null => (value && typeof value === 'object' ? (value as Raw) : null);

const asRead = (sentence: unknown) => (typeof sentence === 'string' ? { code: 'as-read', sentence } : sentence);
const eachAsRead = (sentences: unknown) => (Array.isArray(sentences) ? sentences.map(asRead) : sentences);

function resultOf(value: unknown): unknown {
  const result = raw(value);
  const outcome = raw(result?.outcome);
  if (!result || !outcome) return value;
  const cannot = raw(outcome.cannot);
  return {
    ...result,
    outcome: {
      ...outcome,
      paused: eachAsRead(outcome.paused),
      caveats: eachAsRead(outcome.caveats),
      cannot: cannot ? { code: 'as-read', was: cannot.code, sentence: cannot.because } : outcome.cannot,
    },
  };
}

/**
 * Why a result says nothing, why it is paused and what should be known beside it become codes with their numbers. Results
 * of before hold sentences, and a result is shown as it was read: each sentence is kept as it is, never read for numbers.
 */
export const reasonsAsData: Migration = {
  to: 11,
  documents: {
    results: (document) => ({
      ...document,
      records: Array.isArray(document.records) ? document.records.map(resultOf) : document.records,
    }),
  },
};
