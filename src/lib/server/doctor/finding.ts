import type { DocumentName } from '../storage/documents';

/**
 * One thing found in a data folder. `wrong`: something is lost or closed until it is put right; `note`: good to know. `mend`:
 * what `--mend` would do about it, where it can.
 */
export type Finding = { kind: 'wrong' | 'note'; what: string; todo?: string; mend?: Mend };
export type Mend =
  { kind: 'document'; name: DocumentName } | { kind: 'contents'; names: DocumentName[] } | { kind: 'mode' };

/** `read` null: nothing in the folder was read. `closed`: because it is encrypted, and no passphrase was given. */
export type Examined = {
  findings: Finding[];
  read: { documents: number; cases: number } | null;
  inUse: boolean;
  closed: boolean;
};
