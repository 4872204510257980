import type { Hands, Procedure, Stretch } from '../../model';
import type { Row } from '../table/cells';
import type { RowFacts } from '../table/row-facts';

/** One time of one case, before the stretches of a step are put together. Seconds. */
export type Line = {
  row: number;
  column: string | null;
  /** As written in the file, for the sentence that names it. */
  written: string;
  stepId: string | null;
  kind: Stretch['kind'];
  reason: string | null;
  start: number | null;
  end: number | null;
  seconds: number;
};

/** A case as one of the two layouts gave it: times, and whose hands; the rest is read from its rows. */
export type Draft = {
  role: RowFacts['role'];
  code: string;
  listNumber: number | null;
  place: number | null;
  procedure: Procedure;
  rows: Row[];
  lines: Line[];
  /** Steps of which a row or cell could not be read: what is left of them would be too short. */
  broken: { row: number; stepIds: readonly string[] }[];
  hands: { row: number; stepId: string; hands: Hands }[];
  returns: { row: number; column: string; stepId: string; count: number }[];
};

/** A case without anything in it yet. */
export const newDraft = ({
  role,
  code,
  procedure,
  listNumber,
  place,
}: Pick<Draft, 'role' | 'code' | 'procedure' | 'listNumber' | 'place'>): Draft => ({
  role,
  code,
  listNumber,
  place,
  procedure,
  rows: [],
  lines: [],
  broken: [],
  hands: [],
  returns: [],
});
