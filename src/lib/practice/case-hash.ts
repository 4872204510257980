import { sha256 } from '@noble/hashes/sha2.js';
import { bytesToHex, utf8ToBytes } from '@noble/hashes/utils.js';
import type { Case, Stretch } from '../model';

/**
 * Fingerprint of what a result rests on in these cases: times, hands, facts, place in the lists, left out or not.
 * Reviews, recordings and answers about events change without it. Order of the cases does not matter.
 */
export function hashOfCases(cases: readonly Case[]): string {
  const rows = [...cases]
    .sort((a, b) => (a.id < b.id ? -1 : 1))
    .map((one) => [
      one.id,
      one.listId,
      one.sequence,
      sorted(one.facts),
      one.hands.whole,
      sorted(one.hands.steps),
      one.stretches.map(({ stepId, start, end, seconds, kind }) => [stepId, start, end, seconds, nameIn(kind)]),
      one.leftOut === null,
    ]);
  return bytesToHex(sha256(utf8ToBytes(JSON.stringify(rows))));
}

/** The name a protected part had when the first hashes were stored: under another, old results would seem changed. */
const nameIn = (kind: Stretch['kind']): string => (kind === 'protected' ? 'kept' : kind);

const sorted = (record: Readonly<Record<string, unknown>>) =>
  Object.entries(record).sort(([a], [b]) => (a < b ? -1 : 1));
