import type { FactValue, Procedure } from '../../model';
import type { Steps } from '../../turns';
import { newLedger, type Ledger } from '../ledger';
import type { NoSheet, Sheet } from '../table/cells';
import { codePointsToAPatient } from '../table/people';
import { weights } from '../weights';
import type { Draft } from './draft';
import { factColumns, type Say } from './fact-columns';

/** What the second file says of each case. Its rows are not rows of the first, so its account is kept apart. */
export type JoinedFacts = {
  of: ReadonlyMap<Draft, Readonly<Record<string, FactValue>>>;
  ledger: Ledger;
  /** Headings of it that are no fact of the eye. */
  unknown: readonly string[];
};

/**
 * Facts of the eye by code of the case. A column no fact knows, a value no fact has, a code that is in none of the
 * cases: each is named.
 *
 * @param sheet the second file: `case_id` and one column a fact of the eye.
 * @param drafts the cases they are for; where a code is somebody else's too, it is the surgeon's own that is meant.
 */
export function* factsToJoin(
  sheet: Sheet | NoSheet,
  drafts: readonly Draft[],
  procedure: Procedure,
  freshCodes: boolean,
): Steps<JoinedFacts> {
  const ledger = newLedger();
  const joined = new Map<Draft, Record<string, FactValue>>();
  const nothing = { of: joined, ledger, unknown: [] };
  const say: Say = (row, column, value, why) => ledger.refuseCell(row, column, value, `In the file of facts: ${why}`);
  if (freshCodes) {
    say(
      null,
      null,
      null,
      'the cases were given new codes, so nothing can be joined by the old ones. Put the facts into the file of times.',
    );
    return nothing;
  }
  if ('problem' in sheet) {
    say(sheet.row, null, null, sheet.problem);
    return nothing;
  }
  const [head, ...rows] = sheet.rows;
  const columns = yield* factColumns(head?.cells ?? [], procedure, say);
  if (!columns) return nothing;
  const byCode = new Map<string, Draft[]>();
  for (const draft of drafts) {
    yield weights.row;
    const found = byCode.get(draft.code);
    if (found) found.push(draft);
    else byCode.set(draft.code, [draft]);
  }
  const blank: number[] = [];
  for (const { row, cells } of rows) {
    yield weights.row;
    const code = cells[columns.code] ?? '';
    if (code === '' && columns.facts.every(({ index }) => (cells[index] ?? '') === '')) {
      blank.push(row);
      continue;
    }
    const found = byCode.get(code) ?? [];
    const draft = found.length === 1 ? found[0] : found.find(({ role }) => role === 'me');
    if (!draft) {
      say(
        row,
        head?.cells[columns.code] ?? null,
        codePointsToAPatient(code) ? null : code,
        'no case with this code is in the file of times. Correct the code, or leave the row out.',
      );
      continue;
    }
    const facts = joined.get(draft) ?? {};
    joined.set(draft, facts);
    for (const { index, heading, read } of columns.facts) {
      const cell = cells[index] ?? '';
      const answer = read(cell);
      if ('problem' in answer) {
        say(row, heading, cell, answer.problem);
        continue;
      }
      const others = Object.entries(answer.facts).filter(
        ([id, value]) => facts[id] !== undefined && facts[id] !== value,
      );
      if (others.length > 0)
        say(
          row,
          heading,
          cell,
          'an earlier row of the same case says otherwise; the earlier one is kept. Make them agree.',
        );
      joined.set(draft, Object.assign(facts, { ...answer.facts, ...facts }));
    }
  }
  const [first] = blank;
  if (first !== undefined)
    say(
      first,
      null,
      null,
      `${blank.length === 1 ? 'this row holds' : `this row and ${blank.length - 1} more hold`} no code and no fact.`,
    );
  return { of: joined, ledger, unknown: columns.unknown };
}
