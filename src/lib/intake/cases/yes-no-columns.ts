import type { EyeFact, FactValue, Procedure } from '../../model';
import { counted, capital } from '../../format';
import type { Steps } from '../../turns';
import { cellOf, type Column, type ColumnSet } from '../headings/column';
import type { Table } from '../headings/table';
import type { Ledger } from '../ledger';
import { note, type Ask, type Example } from '../questions';
import { yesNo } from '../table/yes-no';
import { weights } from '../weights';
import type { Draft } from './draft';

/** What the yes/no columns of facts leave open: whether empty is no, and what stands where no level is named. */
export type YesNoColumns = {
  emptyIsNo: ReadonlySet<number>;
  /** By fact: the level where every column of it says no; `null`: not entered. */
  otherwise: ReadonlyMap<string, string | null>;
};

/** The fact and level that a column names; `null` where it names none. */
export function levelOf({ target }: Column): { factId: string; level: string } | null {
  if (target.what !== 'level') return null;
  const at = target.id.indexOf(':');
  return { factId: target.id.slice(0, at), level: target.id.slice(at + 1) };
}

type Seen = { yes: number; no: number; empty: number; examples: Example[] };

/** Asks once for each such column, and once for each fact of which only single levels have a column. */
export function* yesNoColumns(
  drafts: readonly Draft[],
  procedure: Procedure,
  { set, ours, layout }: Pick<Table, 'set' | 'ours' | 'layout'>,
  ask: Ask,
): Steps<YesNoColumns> {
  const emptyIsNo = new Set<number>();
  const otherwise = new Map<string, string | null>();
  // On the list sheet of this tool nothing is said by leaving a cell empty.
  const printed = layout === 'sheet' && set.own('position') !== undefined;
  if (ours || printed) return { emptyIsNo, otherwise };
  for (const column of set.columns) {
    const fact = factOf(column, procedure);
    if (!fact) continue;
    const seen: Seen = { yes: 0, no: 0, empty: 0, examples: [] };
    for (const draft of drafts) {
      yield weights.row;
      if (draft.procedure === procedure) look(seen, draft, column);
    }
    if (seen.yes > 0 && seen.no === 0 && seen.empty > 0 && askEmpty(seen, column, ask)) emptyIsNo.add(column.index);
    const level = levelOf(column);
    if (level && fact.kind === 'choice' && !otherwise.has(fact.id) && (seen.no > 0 || emptyIsNo.has(column.index)))
      otherwise.set(fact.id, askOtherwise(fact, namedLevels(set, fact), column, ask));
  }
  return { emptyIsNo, otherwise };
}

function factOf(column: Column, { facts }: Procedure): EyeFact | null {
  const { target } = column;
  const id = target.what === 'fact' ? target.id : levelOf(column)?.factId;
  const fact = facts.find((one) => one.id === id);
  return fact && (target.what === 'level' || fact.kind === 'yes-no') ? fact : null;
}

function look(seen: Seen, { rows, code }: Draft, column: Column): void {
  const cells = rows.map((row) => cellOf(row, column));
  if (cells.some((cell) => yesNo(cell) === true)) seen.yes += 1;
  else if (cells.every((cell) => cell === '')) {
    seen.empty += 1;
    note(seen.examples, rows[0]?.row ?? 0, code);
  } else if (cells.some((cell) => cell !== '')) seen.no += 1;
}

function askEmpty({ yes, empty, examples }: Seen, { heading, key }: Column, ask: Ask): boolean {
  return (
    ask({
      id: `empty:${key}`,
      question: `${capital(counted(empty, 'case'))} ${empty === 1 ? 'has' : 'have'} an empty cell under "${heading}", ${yes} say yes and none says no. What does empty mean?`,
      options: [
        { value: 'no', label: 'no' },
        { value: 'not-entered', label: 'not entered' },
      ],
      guess: 'no',
      examples,
    }) === 'no'
  );
}

const namedLevels = ({ columns }: ColumnSet, fact: EyeFact): Set<string> =>
  new Set(
    columns.flatMap((column) => {
      const level = levelOf(column);
      return level?.factId === fact.id ? [level.level] : [];
    }),
  );

/** Where "small pupil" says no, the pupil is what people call normal; which level that is, is shown and asked. */
function askOtherwise(fact: EyeFact, has: ReadonlySet<string>, { heading }: Column, ask: Ask): string | null {
  const left = (fact.levels ?? []).filter(({ id }) => !has.has(id));
  const normal = left.find(({ synonyms }) => synonyms?.includes('normal')) ?? left[0];
  const answer = ask({
    id: `otherwise:${fact.id}`,
    question: `Where "${heading}" says no, what is entered for ${fact.label.toLowerCase()}?`,
    options: [
      ...left.map(({ id, label }) => ({ value: id, label })),
      { value: 'leave', label: 'nothing: not entered' },
    ],
    guess: normal?.id ?? 'leave',
  });
  return answer === 'leave' ? null : answer;
}

/** The facts that the yes/no columns of single levels say of a case. A level that is said wins over one that is not. */
export function levelFacts(
  { rows }: Draft,
  set: ColumnSet,
  { facts }: Procedure,
  { emptyIsNo, otherwise }: YesNoColumns,
  ledger: Ledger,
): Record<string, FactValue> {
  const found: Record<string, FactValue> = {};
  const said = new Map<string, { level: string; heading: string }>();
  const denied = new Set<string>();
  for (const column of set.columns) {
    const of = levelOf(column);
    const fact = of && facts.find(({ id }) => id === of.factId);
    if (!of || !fact) continue;
    const cells = rows.map((row) => ({ row, text: cellOf(row, column) })).filter(({ text }) => text !== '');
    for (const { row, text } of cells)
      if (yesNo(text) === undefined)
        ledger.refuseCell(
          row.row,
          column.heading,
          text,
          `"${text}" is neither yes nor no. Correct it, or it is left as not entered.`,
        );
    const yes = cells.some(({ text }) => yesNo(text) === true);
    const no =
      cells.length === 0 ? emptyIsNo.has(column.index) : !yes && cells.some(({ text }) => yesNo(text) === false);
    if (fact.kind === 'yes-no') {
      if (yes || no) found[fact.id] = no;
      continue;
    }
    if (no) denied.add(fact.id);
    if (!yes) continue;
    const before = said.get(fact.id);
    const order = (fact.levels ?? []).map(({ id }) => id);
    if (before && before.level !== of.level)
      ledger.query(
        rows[0]?.row ?? null,
        column.heading,
        null,
        `"${before.heading}" says yes too; of the two the level that stands later in the procedure is taken. Correct one where that is wrong.`,
      );
    if (!before || order.indexOf(of.level) > order.indexOf(before.level))
      said.set(fact.id, { level: of.level, heading: column.heading });
  }
  for (const [id, { level }] of said) found[id] = level;
  for (const id of denied) {
    const level = otherwise.get(id);
    if (found[id] === undefined && level) found[id] = level;
  }
  return found;
}
