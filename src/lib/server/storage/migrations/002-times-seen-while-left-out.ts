import type { Migration } from './migration';

type Raw = Record<string, unknown>;

/** Lines of a history that say that a case which had been left out counts again. */
const COUNTED_AGAIN = /^(Done again: )?Counted again; |^Undone: Left out: /;

const list = (value: unknown): Raw[] => (Array.isArray(value) ? (value as Raw[]) : []);

function marked(one: Raw): Raw {
  const again = list(one.history).some(({ what }) => COUNTED_AGAIN.test(String(what)));
  return again && list(one.stretches).length > 0 ? { ...one, seenWhileOut: true } : one;
}

/**
 * A case counted again after it had been left out carries the mark that its times stood open meanwhile. Before, only
 * its history told, so leaving it out a second time was noted as the choice of somebody who had not looked.
 *
 * In the same step a review of an event may be without its text; what was stored has one, so nothing of it changes.
 */
export const timesSeenWhileLeftOut: Migration = {
  to: 2,
  documents: {
    cases: (document) => ({ ...document, records: list(document.records).map(marked) }),
    imports: (document) =>
      document.state === 'recorded' ? { ...document, before: list(document.before).map(marked) } : document,
  },
};
