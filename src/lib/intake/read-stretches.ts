import type { Procedure } from '../model';
import { blankOf } from './blanks';
import { casesOfRows, type CaseRows, type Keyed } from './case-keys';
import { cellOf, type ColumnSet } from './column-set';
import type { Draft, Line } from './draft';
import { parseDuration } from './duration';
import { readHands, WHOSE_HANDS } from './hands';
import type { LabelPlan } from './label-plan';
import type { Ledger } from './ledger';
import { placeAll } from './place';
import { plainWords } from './plain-words';
import type { Ask } from './questions';
import type { RowFacts } from './row-facts';
import { rowMeanings, rowTimes, whyNoTime, type RowMeaning, type RowTimes } from './stretch-rows';
import { stepLabel } from './targets';
import { areReadings, blankMeaning, timeReader } from './time-cells';

type Read = { facts: RowFacts; procedure: Procedure; meaning: RowMeaning; times: RowTimes; label: string };

/** One row a stretch: sorts rows into cases, reads each, and lets its place decide where a label names several steps. */
export function readStretches(
  rows: readonly RowFacts[],
  set: ColumnSet,
  procedureOf: (row: RowFacts) => Procedure,
  plans: ReadonlyMap<Procedure, ReadonlyMap<string, LabelPlan>>,
  freshCode: (() => string) | null,
  ask: Ask,
  ledger: Ledger,
): Draft[] {
  const stepColumn = set.own('step');
  const timeColumns = (['start', 'end', 'seconds'] as const).flatMap((id) => set.own(id) ?? []);
  const rising = !set.own('start') && !set.own('end') && areReadings(valuesOf(rows, set), ask);
  const read = timeReader(
    rows.map(({ row }) => row),
    timeColumns,
    rising || Boolean(set.own('end')),
    ask,
  );
  const meaningOf = new Map([...plans.keys()].map((procedure) => [procedure, rowMeanings(procedure)]));
  const inRows = new Map<number, Read>();
  const keyed: Keyed[] = [];
  for (const facts of rows) {
    const procedure = procedureOf(facts);
    const label = cellOf(facts.row, stepColumn);
    const ofLabel = label === '' && isWaitingRow(facts, set) ? undefined : plans.get(procedure)?.get(label);
    const bare = label === '' && isInformation(facts, set);
    const meaning = bare
      ? { kind: 'step' as const, stepIds: [], reason: null }
      : meaningOf.get(procedure)?.(facts, set, ofLabel, ledger);
    if (!meaning) continue;
    const times = bare ? 'none' : rowTimes(facts, set, read, ledger);
    inRows.set(facts.row.row, { facts, procedure, meaning, times, label });
    const span = typeof times === 'object' ? times : { start: null, end: null };
    keyed.push({ ...facts, label: `${meaning.kind} ${plainWords(label)}`, start: span.start, end: span.end });
  }
  const blank = blankMeaning(withoutTime(inRows, set), ask);
  const cases = casesOfRows(
    keyed,
    { oneRowACase: false, codeHeading: set.own('case')?.heading ?? null, freshCode },
    ask,
    ledger,
  );
  const drafts = cases.map((rowsOfCase) => draftOf(rowsOfCase, inRows, set, { rising, blank }, ledger));
  placeLabels(drafts, ask, ledger);
  return drafts.map(({ draft }) => draft);
}

const isWaitingRow = ({ row }: RowFacts, set: ColumnSet): boolean =>
  /^(w|wait|gap|idle|pause|delay)/i.test(cellOf(row, set.own('kind')));

/** A row may say something of its case without a time: an event, whose hands, a count of going back. */
const isInformation = ({ row }: RowFacts, set: ColumnSet): boolean =>
  (['event', 'hands', 'went-back', 'case-hands'] as const).some((id) => blankOf(cellOf(row, set.own(id))) !== 'empty');

function valuesOf(rows: readonly RowFacts[], set: ColumnSet): { row: number; values: number[] }[] {
  const cases = new Map<string, { row: number; values: number[] }>();
  for (const facts of rows) {
    const read = parseDuration(cellOf(facts.row, set.own('seconds')), { as: 'reading' });
    if ('problem' in read) continue;
    const key = `${facts.role} ${facts.code} ${facts.list} ${facts.date}`;
    const found = cases.get(key) ?? { row: facts.row.row, values: [] };
    found.values.push(read.seconds);
    cases.set(key, found);
  }
  return [...cases.values()];
}

const withoutTime = (rows: ReadonlyMap<number, Read>, set: ColumnSet) =>
  [...rows.values()]
    .filter(({ times, facts, label }) => times === 'none' && !(isInformation(facts, set) && label === ''))
    .map(({ facts }) => ({ row: facts.row.row, text: cellOf(facts.row, set.own('seconds') ?? set.own('end')) }));

type Unplaced = Line & { stepIds: readonly string[]; label: string };
type Working = { draft: Draft; lines: Unplaced[] };

function draftOf(
  { role, code, rows, listNumber, place }: CaseRows,
  inRows: ReadonlyMap<number, Read>,
  set: ColumnSet,
  file: { rising: boolean; blank: ReturnType<typeof blankMeaning> },
  ledger: Ledger,
): Working {
  const first = inRows.get(rows[0]?.row.row ?? 0);
  const draft: Draft = {
    role,
    code,
    listNumber,
    place,
    procedure: first?.procedure as Procedure,
    rows: [],
    lines: [],
    broken: [],
    hands: [],
    wentBack: [],
  };
  const lines: Unplaced[] = [];
  let clock: number | null = 0;
  for (const { row } of rows) {
    const read = inRows.get(row.row);
    if (!read) continue;
    const { meaning, facts, label } = read;
    if (read.procedure !== draft.procedure) {
      ledger.refuseRow(
        row.row,
        set.own('procedure')?.heading ?? null,
        cellOf(row, set.own('procedure')),
        'Another row of this case names another procedure. Give the two operations two codes, or correct one.',
      );
      continue;
    }
    const times = file.rising ? sinceLast(read.times, clock) : read.times;
    if (file.rising)
      clock =
        typeof read.times === 'object'
          ? read.times.seconds
          : file.blank(blankOf(cellOf(row, set.own('seconds'))) ?? 'empty') === 'not-done'
            ? clock
            : null;
    if (times === 'broken' && read.times !== 'broken')
      ledger.refuseRow(
        row.row,
        set.own('seconds')?.heading ?? null,
        cellOf(row, set.own('seconds')),
        'The row before gives no reading, so this length is not known.',
      );
    if (times === 'broken') {
      if (meaning.kind === 'step') draft.broken.push({ row: row.row, stepIds: meaning.stepIds });
      continue;
    }
    if (times === 'none' && !isInformation(facts, set)) {
      const text = cellOf(row, set.own('seconds') ?? set.own('end'));
      const blank = blankOf(text) ?? 'empty';
      ledger.refuseRow(
        row.row,
        set.own('seconds')?.heading ?? set.own('end')?.heading ?? null,
        text,
        whyNoTime(blank, file.blank(blank)),
      );
      continue;
    }
    draft.rows.push(row);
    if (times !== 'none')
      lines.push({
        row: row.row,
        column: set.own('step')?.heading ?? null,
        written: label,
        stepId: meaning.stepIds[0] ?? null,
        stepIds: meaning.stepIds,
        label,
        kind: meaning.kind,
        reason: meaning.reason,
        ...times,
      });
    sayOfStep(draft, row.row, facts, meaning, set, ledger);
  }
  return { draft, lines };
}

/** A reading becomes the length since the one before. */
function sinceLast(times: RowTimes, clock: number | null): RowTimes {
  if (typeof times !== 'object') return times;
  if (clock === null || times.seconds <= clock) return 'broken';
  return { start: clock, end: times.seconds, seconds: times.seconds - clock };
}

/** Whose hands, and how often gone back to, as far as the row says it of its step. */
function sayOfStep(
  draft: Draft,
  row: number,
  facts: RowFacts,
  meaning: RowMeaning,
  set: ColumnSet,
  ledger: Ledger,
): void {
  const [stepId] = meaning.stepIds;
  if (stepId === undefined) return;
  const column = set.own('hands');
  const hands = readHands(cellOf(facts.row, column));
  if (hands === undefined) ledger.refuseCell(row, column?.heading ?? null, null, WHOSE_HANDS);
  if (hands !== null && meaning.kind === 'step') draft.hands.push({ row, stepId, hands: hands ?? 'shared' });
  const back = set.own('went-back');
  const count = cellOf(facts.row, back);
  if (back && /^\d{1,3}$/.test(count)) draft.wentBack.push({ row, column: back.heading, stepId, count: Number(count) });
  else if (back && blankOf(count) === null)
    ledger.refuseCell(
      row,
      back.heading,
      count,
      `"${count}" is not a count. Write how often the step was gone back to, or leave it empty.`,
    );
}

/** Lets the place decide, asks about labels that stand between, and leaves out what is not wanted. */
function placeLabels(all: readonly Working[], ask: Ask, ledger: Ledger): void {
  const placed = all.map(({ draft, lines }) => {
    const byClock = lines.every(({ start }) => start !== null)
      ? [...lines].sort((a, b) => (a.start ?? 0) - (b.start ?? 0))
      : lines;
    return placeAll(
      byClock,
      ({ stepIds }) => stepIds,
      draft.procedure.steps.map(({ id }) => id),
    );
  });
  const unclear = new Map<
    string,
    { row: number; text: string; stepIds: readonly string[]; guess: string; procedure: Procedure }[]
  >();
  placed.forEach((items, index) =>
    items
      .filter(({ clear }) => !clear)
      .forEach(({ item, stepId }) => {
        const procedure = all[index]?.draft.procedure as Procedure;
        const found = unclear.get(item.label) ?? [];
        unclear.set(item.label, found);
        found.push({
          row: item.row,
          text: `${all[index]?.draft.code} · ${item.label}`,
          stepIds: item.stepIds,
          guess: stepId,
          procedure,
        });
      }),
  );
  const answers = new Map(
    [...unclear].map(([label, found]) => {
      const { stepIds, guess, procedure } = found[0] ?? { stepIds: [], guess: '', procedure: undefined };
      const name = (id: string) => (procedure ? stepLabel(procedure, id) : id);
      const answer = ask({
        id: `place:${plainWords(label)}`,
        question: `${found.length === 1 ? 'One row' : `${found.length} rows`} named "${label}" stand between ${stepIds.map((id) => name(id).toLowerCase()).join(' and ')}. Which step is it there?`,
        options: [
          ...stepIds.map((id) => ({ value: id, label: name(id) })),
          { value: 'leave', label: 'leave these rows out' },
        ],
        guess,
        examples: found.map(({ row, text }) => ({ row, text })),
      });
      return [label, answer] as const;
    }),
  );
  all.forEach(({ draft }, index) => {
    for (const { item, stepId, clear } of placed[index] ?? []) {
      const { stepIds: _steps, label, ...line } = item;
      const answer = clear ? stepId : (answers.get(label) ?? stepId);
      if (answer === 'leave')
        ledger.refuseRow(
          line.row,
          line.column,
          label,
          `"${label}" stands between two steps here and was left out, as you chose.`,
        );
      else draft.lines.push({ ...line, stepId: item.stepIds.length === 0 ? null : answer });
    }
    const moved = new Map(draft.lines.map(({ row, stepId }) => [row, stepId]));
    for (const said of [...draft.hands, ...draft.wentBack]) said.stepId = moved.get(said.row) ?? said.stepId;
    draft.rows = draft.rows.filter(({ row }) => !ledger.named.has(row));
  });
}
