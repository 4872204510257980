import type { EyeFact, FactValue, Procedure } from '../../model';
import { mapped, type Work } from '../../turns';
import { cellsOf, type Row } from '../table/cells';
import { textOf } from '../table/decode';
import type { Draft } from './draft';
import { factReader } from './facts';
import { headingMatcher } from '../headings/headings';
import { newLedger, type Ledger } from '../ledger';
import { factsOfLetters, moreFacts, readLetters } from './more-facts';
import { codePointsToAPatient } from '../table/people';

/** A second file: `case_id` and one column a fact of the eye. */
export type FactsFile = { text?: string; bytes?: Uint8Array };

/** What the second file says of each case. Its rows are not rows of the first, so its account is kept apart. */
export type JoinedFacts = { of: ReadonlyMap<Draft, Readonly<Record<string, FactValue>>>; ledger: Ledger };

/** The ledger's words, marked as of the second file; its rows are not rows of the first. */
type Say = (row: number | null, column: string | null, value: string | null, why: string) => void;

/**
 * Facts of the eye by code of the case. A column no fact knows, a value no fact has, a code that is in none of the
 * cases: each is named.
 *
 * @param drafts the cases they are for; where a code is somebody else's too, it is the surgeon's own that is meant.
 */
export function* factsToJoin(
  file: FactsFile,
  drafts: readonly Draft[],
  procedure: Procedure,
  freshCodes: boolean,
): Work<JoinedFacts> {
  const ledger = newLedger();
  const say: Say = (row, column, value, why) => ledger.refuseCell(row, column, value, `In the file of facts: ${why}`);
  if (freshCodes) {
    say(
      null,
      null,
      null,
      'the cases were given new codes, so nothing can be joined by the old ones. Put the facts into the file of times.',
    );
    return { of: new Map(), ledger };
  }
  const text = yield* textOf(file);
  const sheet = 'problem' in text ? { problem: text.problem, row: null } : yield* cellsOf(text.text);
  if ('problem' in sheet) {
    say(sheet.row, null, null, sheet.problem);
    return { of: new Map(), ledger };
  }
  const [head, ...rows] = sheet.rows;
  const byCode = new Map<string, Draft[]>();
  yield* mapped(drafts, (draft) => {
    const found = byCode.get(draft.code);
    if (found) found.push(draft);
    else byCode.set(draft.code, [draft]);
  });
  const columns = factColumns(head?.cells ?? [], procedure, say);
  if (!columns) return { of: new Map(), ledger };
  const joined = new Map<Draft, Record<string, FactValue>>();
  const blank: number[] = [];
  const join = ({ row, cells }: Row) => {
    const code = cells[columns.code] ?? '';
    if (code === '' && columns.facts.every(({ index }) => (cells[index] ?? '') === '')) {
      blank.push(row);
      return;
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
      return;
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
  };
  yield* mapped(rows, join);
  const [first] = blank;
  if (first !== undefined)
    say(
      first,
      null,
      null,
      `${blank.length === 1 ? 'this row holds' : `this row and ${blank.length - 1} more hold`} no code and no fact.`,
    );
  return { of: joined, ledger };
}

type FactColumn = {
  index: number;
  heading: string;
  read: (text: string) => { facts: Record<string, FactValue> } | { problem: string };
};

function oneFact(fact: EyeFact): FactColumn['read'] {
  const read = factReader(fact);
  return (text) => {
    const found = read(text);
    if ('problem' in found) return found;
    return { facts: found.value === null ? {} : { [fact.id]: found.value } };
  };
}

function lettered(procedure: Procedure): FactColumn['read'] {
  const more = moreFacts(procedure);
  return (text) => {
    const found = readLetters(text, more);
    if ('problem' in found) return found;
    return { facts: found.letters === null ? {} : factsOfLetters(found.letters, more) };
  };
}

function factColumns(headings: readonly string[], procedure: Procedure, say: Say) {
  const match = headingMatcher(procedure, 'stretches');
  const targets = headings.map((heading) => (heading === '' ? undefined : match(heading).targets[0]));
  const code = targets.findIndex((target) => target?.what === 'own' && target.id === 'case');
  if (code < 0) {
    say(1, null, null, 'a column case_id is needed, to join by.');
    return null;
  }
  const beside: string[] = [];
  const facts = headings.flatMap((heading, index): FactColumn[] => {
    const target = targets[index];
    const fact = target?.what === 'fact' ? procedure.facts.find(({ id }) => id === target.id) : undefined;
    if (fact) return [{ index, heading, read: oneFact(fact) }];
    if (target?.what === 'own' && target.id === 'more') return [{ index, heading, read: lettered(procedure) }];
    if (target?.what === 'own' && index !== code) beside.push(heading);
    else if (index !== code && heading !== '')
      say(
        1,
        heading,
        null,
        `"${heading}" is not a known fact of the eye for ${procedure.name.toLowerCase()}; the column is left out.`,
      );
    return [];
  });
  if (beside.length > 0)
    say(
      1,
      null,
      null,
      `only facts of the eye are joined, so ${beside.map((heading) => `"${heading}"`).join(', ')} ${beside.length === 1 ? 'is' : 'are'} left out. Put whose hands, events and lists into the file of times.`,
    );
  return { code, facts };
}

/** Facts of the second file beside those of the first; where they differ, the first is kept, and that is named. */
export function withJoined(
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
