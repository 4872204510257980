import { emptyLedger, type Ledger } from './documents';
import type { Draft, Reader } from './shelf';

export const ledgerOf = (reader: Reader): Ledger => reader.read('ledger') ?? emptyLedger;

/** An id for a document that can be dropped again: counted in the ledger, so that an old tab cannot mean a new import. */
export function newDocumentId(draft: Draft, kind: 'import' | 'reference'): `import-${number}` | `reference-${number}` {
  const ledger = ledgerOf(draft);
  draft.write('ledger', { ...ledger, next: { ...ledger.next, [kind]: ledger.next[kind] + 1 } });
  return `${kind}-${ledger.next[kind]}`;
}
