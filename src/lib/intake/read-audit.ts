import type { Case, NewCase, Problem, Procedure } from '../model';
import { atOnce, bundled, inSlices, type Slices, type Steps } from '../turns';
import { handWords, withHandWords } from './cases/hand-words';
import { finish } from './cases/finish';
import { inLists } from './cases/in-lists';
import { factsToJoin } from './cases/join-facts';
import { knownCases, type KnownCase } from './cases/known-cases';
import type { NewList } from './cases/lists';
import { readCases } from './cases/read-cases';
import { referencesOf, type ReferenceDraft } from './cases/references';
import type { Context } from './context';
import { findHeadings } from './headings/find-headings';
import { notUnderstood, understood, type Understood } from './headings/mapping';
import { rowsUnder } from './headings/rows-under';
import { tableOf } from './headings/table';
import { newLedger } from './ledger';
import { asker, type Question } from './questions';
import { rowsRead, type RowsRead } from './rows-read';
import { askRunningSteps, withRunningSteps, type RunningStep } from './running-steps';
import { readStretches } from './stretches/read-stretches';
import { rowFacts } from './table/row-facts';
import { sheetOf, type Written } from './table/sheet';

export type AuditInput = Written & {
  fileName: string;
  procedures: readonly Procedure[];
  /** Facts of the eye in a second file, joined by the code of the case; to the cases of reference surgeons too. */
  facts?: Written;
  /** The record so far: its codes are known again, and new sequence numbers follow it. */
  existing?: readonly Case[];
  /** Whether those are the surgeon's own; left out, they are unless they are invented. */
  besideOwn?: boolean;
  /** ISO date: a day of a list that lies ahead of it is asked about. Left out, none is. */
  today?: string;
  /** Answers, as a plain form posts them: the id of a question, or the key of a mapping, to the chosen value. */
  choices?: Readonly<Record<string, string>>;
  /** Steps of goals that are running: a file of times without them is asked about. */
  running?: readonly RunningStep[];
  /** The rows as they were understood too, for a page that shows them. */
  withRows?: boolean;
};

export type AuditReading = Understood & {
  cases: NewCase[];
  lists: NewList[];
  /** Cases of other surgeons, without names: R1, R2 … */
  references: ReferenceDraft[];
  /** Cases whose code is already in the record. */
  known: KnownCase[];
  /** Of very many the first; `counted` has all. */
  problems: Problem[];
  counted: Record<Problem['weight'], number>;
  questions: Question[];
  /** Headings of the second file that are no fact of the eye. */
  unknownFacts: readonly string[];
  /** Rows under the headings; each is taken or named, none is both. */
  rowsIn: number;
  rowsTaken: number;
  rowsNamed: number;
  /** Where they were asked for, and the file could be read as a table. */
  rows: RowsRead | null;
  /** The record holds own cases already. */
  besideOwn: boolean;
  /** Something can be taken, and every question that must be answered is. */
  ready: boolean;
};

/**
 * Reads an audit of step times: one row a stretch, one row a case, or chapter marks of one recording. Pure: nothing
 * is stored. Never throws on what a file holds; what is wrong is in `problems`, with row, column, value and what to do.
 *
 * Step times are seconds. Events are `null` (not answered) for every case where no column asks for them.
 */
export const readAudit = (input: AuditInput): AuditReading => atOnce(reading(input));

/** The same in slices of well under 50 ms, for a server that answers others meanwhile. */
export function readAuditInSlices(input: AuditInput, how: Slices): Promise<AuditReading> {
  const size: Size = { weight: 0 };
  return inSlices(
    bundled(reading(input, size), undefined, () => size.weight),
    how,
  );
}

/** What a reading is expected to weigh, once its rows and columns are known: for its progress. */
type Size = { weight: number };

/** Weight of a row by layout, and of each of its columns: measured on files of 20,000 rows. */
const A_ROW = { stretches: 13, cases: 43, sheet: 43 } as const;
const A_COLUMN = { stretches: 0.6, cases: 0.75, sheet: 0.75 } as const;

/** One way, each stage taking what the one before it gave: sheets, headings, table, rows, drafts, cases, cases beside those of the record. */
export function* reading(input: AuditInput, size: Size = { weight: 0 }): Steps<AuditReading> {
  const { procedures, existing = [], facts, today = null } = input;
  const choices = withRunningSteps(input.choices ?? {});
  const ledger = newLedger();
  const { ask, questions } = asker(choices);
  const taken = new Set(existing.map(({ code }) => code));
  const { besideOwn = existing.some(({ invented }) => !invented) } = input;
  const context: Context = { procedures, choices, ask, ledger, taken, besideOwn, today };

  const sheet = yield* sheetOf(input, choices['code']?.trim() || freeCode(taken));
  const factsSheet = facts && (yield* sheetOf(facts, null));
  if ('problem' in sheet) ledger.refuseFile(sheet.problem, sheet.row);
  const found = 'problem' in sheet ? null : yield* rowsUnder(yield* findHeadings(sheet, context), sheet, ledger);
  const asWritten = found && (yield* tableOf(found, context));
  if (asWritten)
    size.weight =
      asWritten.body.length * (A_ROW[asWritten.layout] + A_COLUMN[asWritten.layout] * asWritten.set.columns.length);
  const handsMean = asWritten && (yield* handWords(asWritten, context));
  const table = asWritten && handsMean && withHandWords(asWritten, handsMean);
  const file = table && (yield* rowFacts(table, context));
  const drafting = table && file && (table.layout === 'stretches' ? readStretches : readCases)(table, file, context);
  const drafted = drafting && (yield* drafting);
  const joined =
    factsSheet && table && file && drafted
      ? yield* factsToJoin(factsSheet, drafted.drafts, table.procedure, file.freshCodes)
      : { of: new Map(), ledger: newLedger(), unknown: [] };
  const all = table && drafted ? yield* finish(drafted.drafts, table, context, joined) : null;
  const { finished, values } = all ?? { finished: [], values: [] };
  const firstSequence = existing.reduce((last, { sequence }) => Math.max(last, Math.floor(sequence)), 0) + 1;
  const { cases, lists, handsSaid } = yield* inLists(finished, table, context, firstSequence);
  const references = yield* referencesOf(finished);
  const freshCodes = file?.freshCodes ?? false;
  const compared = yield* knownCases(cases, { existing, handsSaid, procedures, freshCodes }, ledger);
  const meaning = table && drafted ? understood(table, drafted.plans, values) : yield* notUnderstood(sheet, context);

  const how = all && drafted && handsMean && { ...drafted, ...all, freshCodes, handsMean };
  const rows =
    input.withRows && asWritten && found && how ? yield* rowsRead(asWritten, found.above, how, ledger) : null;

  if (table && drafted) askRunningSteps(input.running ?? [], table.procedure, cases, meaning.mapping, ask);
  const answered = questions.every(({ mustAnswer, answered: given }) => !mustAnswer || given);
  return {
    ...meaning,
    lists,
    references,
    ...compared,
    // By row, as a reader goes through the file; what is said of a second file comes last.
    problems: [...byRow(ledger.problems), ...byRow(joined.ledger.problems)],
    counted: {
      refused: ledger.counts.refused + joined.ledger.counts.refused,
      queried: ledger.counts.queried + joined.ledger.counts.queried,
    },
    questions,
    unknownFacts: joined.unknown,
    rowsIn: drafted ? table.rowsIn : 0,
    rowsTaken: drafted ? ledger.taken.size : 0,
    rowsNamed: drafted ? ledger.named.size : 0,
    rows,
    besideOwn,
    ready: answered && cases.length + references.length > 0,
  };
}

const byRow = (problems: readonly Problem[]): Problem[] => [...problems].sort((a, b) => (a.row ?? 0) - (b.row ?? 0));

/** Chapter marks hold no code: where none is typed beside the file, the next free one is given. */
function freeCode(taken: ReadonlySet<string>): string {
  let next = 1;
  while (taken.has(`C${next}`)) next += 1;
  return `C${next}`;
}
