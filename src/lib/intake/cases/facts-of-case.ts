import type { FactValue } from '../../model';
import { cellOf, type ColumnSet } from '../headings/column';
import type { Ledger } from '../ledger';
import { agreedCell } from '../table/agreed-cell';
import type { Row } from '../table/cells';
import type { CaseReaders } from './case-readers';
import type { Draft } from './draft';
import type { JoinedFacts } from './join-facts';
import { factsOfLetters, readLetters } from './more-facts';
import { levelFacts } from './yes-no-columns';

/** Facts of the eye, of both files; those not entered are not in it. */
export const factsOf = (
  draft: Draft,
  set: ColumnSet,
  readers: CaseReaders,
  joined: JoinedFacts,
  ledger: Ledger,
): Record<string, FactValue> => withJoined(ownFacts(draft, set, readers, ledger), draft, joined);

function ownFacts(draft: Draft, set: ColumnSet, readers: CaseReaders, ledger: Ledger): Record<string, FactValue> {
  const { rows } = draft;
  const own: Record<string, FactValue> = {};
  for (const column of set.columns) {
    const read = column.target.what === 'fact' ? readers.facts.get(column.target.id) : undefined;
    if (!read || column.target.what !== 'fact') continue;
    const empty = readers.yesNo.emptyIsNo.has(column.index) && rows.every((row) => cellOf(row, column) === '');
    const value = empty ? false : agreedCell(rows, column, read, ledger);
    if (value !== null) own[column.target.id] = value;
  }
  const letters = moreOf(rows, set, readers, ledger);
  const levels = levelFacts(draft, set, draft.procedure, readers.yesNo, ledger);
  return { ...own, ...letters, ...levels, ...own };
}

/** Letters under "anything else" answer every fact that is asked there. */
function moreOf(rows: readonly Row[], set: ColumnSet, { more }: CaseReaders, ledger: Ledger): Record<string, boolean> {
  const column = set.own('more');
  if (!column) return {};
  const read = (text: string) => {
    const found = readLetters(text, more);
    return 'problem' in found
      ? { problem: `${found.problem} Correct it, or these facts are left as not entered.` }
      : { value: found.letters };
  };
  const letters = agreedCell<string>(rows, column, read, ledger);
  return letters === null ? {} : factsOfLetters(letters, more);
}

/** Facts of the second file beside those of the first; where they differ, the first is kept, and that is named. */
function withJoined(
  own: Readonly<Record<string, FactValue>>,
  draft: Draft,
  { of, ledger }: JoinedFacts,
): Record<string, FactValue> {
  const facts = { ...own };
  for (const [id, value] of Object.entries(of.get(draft) ?? {})) {
    if (facts[id] === undefined) facts[id] = value;
    else if (facts[id] !== value)
      ledger.refuseCell(
        null,
        id,
        String(value),
        `In the file of facts: the file of times says ${String(facts[id])} for case ${draft.code}; that is kept. Make them agree.`,
      );
  }
  return facts;
}
