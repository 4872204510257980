import type { Case, NewCase, Problem, Procedure } from '../model';
import { atOnce, inSlices, scaled, type Slices, type Work } from '../turns';
import { chaptersAsSheet, cuesOf, isChapters } from './stretches/chapters';
import { checkText, decode } from './table/decode';
import { finish } from './cases/finish';
import type { FinishedFile, ReferenceDraft } from './cases/in-lists';
import { factsToJoin, type FactsFile } from './cases/join-facts';
import { knownCases, type KnownCase } from './cases/known-cases';
import type { Layout } from './headings/targets';
import { labelOptions } from './labels/label-plan';
import { newLedger } from './ledger';
import type { NewList } from './cases/lists';
import { asker, type Option, type Question } from './questions';
import { readTable, type Table } from './table/read-table';
import { mappingOf, mappingOfUnread, type Mapping } from './headings/mapping';
import { allTargets } from './headings/targets';

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
  problems: Problem[];
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

function* reading(input: AuditInput): Work<AuditReading> {
  const ledger = newLedger();
  const { ask, questions } = asker(input.choices ?? {});
  const decoded = input.bytes ? decode(input.bytes) : checkText(input.text ?? '');
  const text = 'text' in decoded ? checkText(decoded.text) : decoded;
  if ('problem' in text) ledger.refuseCell(null, null, null, text.problem);
  const existing = input.existing ?? [];
  const taken = new Set(existing.map(({ code }) => code));
  const chapters = 'text' in text && isChapters(text.text);
  const context = { procedures: input.procedures, choices: input.choices ?? {}, ask, ledger, taken, chapters };
  const work = 'problem' in text ? null : chapters ? readChapters(text.text, context) : readTable(text.text, context);
  const table = work && (yield* scaled(work, 0, 0.7));
  const firstSequence = existing.reduce((last, { sequence }) => Math.max(last, Math.floor(sequence)), 0) + 1;
  const joined = input.facts && table ? factsToJoin(input.facts, table) : { of: new Map(), ledger: newLedger() };
  const options = table && {
    sheet: table.layout === 'sheet',
    today: input.today ?? null,
    set: table.set,
    ours: table.ours,
    ask,
    ledger,
    firstSequence,
    joined,
  };
  const finished: FinishedFile = options
    ? yield* scaled(finish(table.drafts, options), 0.7, 0.9)
    : { cases: [], lists: [], references: [], handsSaid: new Set() };
  const compared = yield* scaled(knownCases(finished.cases, existing, finished.handsSaid, input.procedures), 0.9, 1);
  const [first] = input.procedures;
  const unread =
    table || chapters || !first || 'problem' in text
      ? { mapping: [], options: [] }
      : yield* mappingOfUnread(text.text, first, context.choices);
  const answered = questions.every(({ mustAnswer, answered: given }) => !mustAnswer || given);
  return {
    layout: table ? (chapters ? 'chapters' : table.layout) : null,
    procedureId: table?.procedure.id ?? null,
    lists: finished.lists,
    references: finished.references,
    ...compared,
    // By row, as a reader goes through the file; what is said of a second file comes last.
    problems: [...byRow(ledger.problems), ...byRow(joined.ledger.problems)],
    questions,
    mapping: table ? mappingOf(table, chapters) : unread.mapping,
    columnOptions: table ? allTargets(table.procedure, table.layout) : unread.options,
    labelOptions: table ? labelOptions(table.procedure) : [],
    rowsIn: table?.rowsIn ?? 0,
    rowsTaken: table ? ledger.taken.size : 0,
    rowsNamed: table ? ledger.named.size : 0,
    ready: answered && finished.cases.length + finished.references.length > 0,
  };
}

const byRow = (problems: readonly Problem[]): Problem[] => [...problems].sort((a, b) => (a.row ?? 0) - (b.row ?? 0));

type Context = Parameters<typeof readTable>[1];

/** Chapter marks hold no code: the next free one is given, or one typed beside the file. */
function* readChapters(text: string, context: Context): Work<Table | null> {
  const cues = cuesOf(text);
  if (cues.length === 0) {
    context.ledger.refuseCell(
      null,
      null,
      null,
      'There are no chapters in this file. A chapter is a line with two times and a line with the step under it.',
    );
    return null;
  }
  const typed = context.choices['code']?.trim() ?? '';
  const rows = chaptersAsSheet(cues, typed === '' ? freeCode(context.taken) : typed);
  return yield* readTable(
    rows.map((cells) => cells.map((cell) => `"${cell.replaceAll('"', '""')}"`).join(',')).join('\n'),
    context,
  );
}

function freeCode(taken: ReadonlySet<string>): string {
  let next = 1;
  while (taken.has(`C${next}`)) next += 1;
  return `C${next}`;
}
