import type { Case, NewCase, Problem, Procedure } from '../model';
import { atOnce, inSlices, type Slices, type Work } from '../turns';
import { finish } from './cases/finish';
import type { FinishedFile, ReferenceDraft } from './cases/in-lists';
import { factsToJoin, type FactsFile, type JoinedFacts } from './cases/join-facts';
import { knownCases, type KnownCase } from './cases/known-cases';
import type { NewList } from './cases/lists';
import { readCases } from './cases/read-cases';
import type { Context } from './context';
import { mappingOf, mappingOfUnread, type Mapping } from './headings/mapping';
import { tableOf } from './headings/table';
import { allTargets, type Layout } from './headings/targets';
import { labelOptions } from './labels/label-plan';
import { newLedger } from './ledger';
import { asker, type Option, type Question } from './questions';
import { chaptersAsSheet, isChapters } from './stretches/chapters';
import { readStretches } from './stretches/read-stretches';
import { cellsOf } from './table/cells';
import { textOf } from './table/decode';
import { rowFacts } from './table/row-facts';

export type AuditInput = {
  /** Text (pasted cells, a file already read) or the bytes of a file in any usual encoding. */
  text?: string;
  bytes?: Uint8Array;
  fileName: string;
  procedures: readonly Procedure[];
  /** Facts of the eye in a second file, joined by the code of the case; to the cases of reference surgeons too. */
  facts?: FactsFile;
  /** The record so far: its codes are known again, and new sequence numbers follow it. */
  existing?: readonly Case[];
  /** ISO date: a day of a list that lies ahead of it is asked about. Left out, none is. */
  today?: string;
  /** Answers, as a plain form posts them: the id of a question, or the key of a mapping, to the chosen value. */
  choices?: Readonly<Record<string, string>>;
};

export type AuditReading = {
  layout: Layout | 'chapters' | null;
  procedureId: string | null;
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
  mapping: Mapping[];
  /** What a column or a label can be, to choose from. */
  columnOptions: Option[];
  labelOptions: Option[];
  /** Rows under the headings; each is taken or named, none is both. */
  rowsIn: number;
  rowsTaken: number;
  rowsNamed: number;
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
export const readAuditInSlices = (input: AuditInput, how: Slices): Promise<AuditReading> =>
  inSlices(reading(input), how);

/** One way, each stage plain data in and out: text, cells, table, rows, drafts, cases, cases beside those of the record. */
function* reading(input: AuditInput): Work<AuditReading> {
  const { choices = {}, procedures, existing = [] } = input;
  const ledger = newLedger();
  const { ask, questions } = asker(choices);
  const taken = new Set(existing.map(({ code }) => code));
  const text = yield* textOf(input);
  const chapters = 'text' in text && isChapters(text.text);
  const context: Context = { procedures, choices, ask, ledger, taken, today: input.today ?? null, chapters };
  const sheet =
    'problem' in text
      ? { problem: text.problem, row: null }
      : chapters
        ? chaptersAsSheet(text.text, choices['code']?.trim() || freeCode(taken))
        : yield* cellsOf(text.text);
  if ('problem' in sheet) ledger.refuseFile(sheet.problem, sheet.row);
  const table = 'problem' in sheet ? null : yield* tableOf(sheet, context);
  const file = table && (yield* rowFacts(table, context));
  const work = table && file && (table.layout === 'stretches' ? readStretches : readCases)(table, file, context);
  const drafted = work && (yield* work);

  const joined: JoinedFacts =
    input.facts && table && file && drafted
      ? yield* factsToJoin(input.facts, drafted.drafts, table.procedure, file.freshCodes)
      : { of: new Map(), ledger: newLedger() };
  const firstSequence = existing.reduce((last, { sequence }) => Math.max(last, Math.floor(sequence)), 0) + 1;
  const finished: FinishedFile =
    table && drafted
      ? yield* finish(drafted.drafts, table, { context, firstSequence, joined })
      : { cases: [], lists: [], references: [], handsSaid: new Set() };
  const compared = yield* knownCases(finished.cases, existing, finished.handsSaid, procedures);

  const [first] = procedures;
  const unread =
    drafted || chapters || 'problem' in sheet || !first
      ? { mapping: [], options: [] }
      : mappingOfUnread(sheet, first, choices);
  const understood = table && drafted;
  const answered = questions.every(({ mustAnswer, answered: given }) => !mustAnswer || given);
  return {
    layout: understood ? (chapters ? 'chapters' : table.layout) : null,
    procedureId: understood ? table.procedure.id : null,
    lists: finished.lists,
    references: finished.references,
    ...compared,
    // By row, as a reader goes through the file; what is said of a second file comes last.
    problems: [...byRow(ledger.problems), ...byRow(joined.ledger.problems)],
    counted: {
      refused: ledger.counts.refused + joined.ledger.counts.refused,
      queried: ledger.counts.queried + joined.ledger.counts.queried,
    },
    questions,
    mapping: understood ? mappingOf(table, drafted.plans, chapters) : unread.mapping,
    columnOptions: understood ? allTargets(table.procedure, table.layout) : unread.options,
    labelOptions: understood ? labelOptions(table.procedure) : [],
    rowsIn: understood ? table.rowsIn : 0,
    rowsTaken: understood ? ledger.taken.size : 0,
    rowsNamed: understood ? ledger.named.size : 0,
    ready: answered && finished.cases.length + finished.references.length > 0,
  };
}

const byRow = (problems: readonly Problem[]): Problem[] => [...problems].sort((a, b) => (a.row ?? 0) - (b.row ?? 0));

/** Chapter marks hold no code: where none is typed beside the file, the next free one is given. */
function freeCode(taken: ReadonlySet<string>): string {
  let next = 1;
  while (taken.has(`C${next}`)) next += 1;
  return `C${next}`;
}
