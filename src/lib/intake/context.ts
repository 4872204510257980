import type { Procedure } from '../model';
import type { Ledger } from './ledger';
import type { Ask } from './questions';

/** What every stage of one reading has at hand: what is known, what is asked, and the account of the rows. */
export type Context = {
  procedures: readonly Procedure[];
  choices: Readonly<Record<string, string>>;
  ask: Ask;
  ledger: Ledger;
  /** Codes of the record so far. */
  taken: ReadonlySet<string>;
  /** The record holds own cases (invented ones are nobody's): then nobody's times become own without a word. */
  besideOwn: boolean;
  /** ISO date; `null` where nobody knows it. */
  today: string | null;
};
