import type { Procedure } from '../../model';
import { mapped, type Work } from '../../turns';
import type { Draft, Line } from '../cases/draft';
import type { Ledger } from '../ledger';
import { placeAll, type Placed } from '../stretches/place';
import { plainWords } from './plain-words';
import type { Ask } from '../questions';
import { stepLabel } from '../headings/targets';
import { intakeThresholds } from '../thresholds';

/** A line whose label may still stand for several steps. */
export type Unplaced = Line & { stepIds: readonly string[]; label: string };
export type Working = { draft: Draft; lines: Unplaced[] };

/** Lets the place decide, asks about labels that stand between, and leaves out what is not wanted. */
export function* placeLabels(all: readonly Working[], ask: Ask, ledger: Ledger): Work<Draft[]> {
  const unclear = new Map<string, Unclear>();
  const place = ({ draft: { procedure, code }, lines }: Working): Placed<Unplaced>[] => {
    const byClock = lines.every(({ start }) => start !== null)
      ? [...lines].sort((a, b) => (a.start ?? 0) - (b.start ?? 0))
      : lines;
    const order = procedure.steps.map(({ id }) => id);
    const placed = placeAll(byClock, ({ stepIds }) => stepIds, order);
    for (const { item, stepId, clear } of placed) {
      if (clear) continue;
      const found = unclear.get(item.label) ?? { item, guess: stepId, procedure, rows: 0, examples: [] };
      unclear.set(item.label, found);
      found.rows += 1;
      if (found.examples.length < intakeThresholds.examples)
        found.examples.push({ row: item.row, text: `${code} · ${item.label}` });
    }
    return placed;
  };
  const placed = yield* mapped(all, place, CASES_A_SLICE);
  const answers = new Map([...unclear].map(([label, found]) => [label, asked(label, found, ask)]));
  const settle = ({ draft }: Working, index: number): Draft => {
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
    for (const said of [...draft.hands, ...draft.returns]) said.stepId = moved.get(said.row) ?? said.stepId;
    draft.rows = draft.rows.filter(({ row }) => !ledger.named.has(row));
    return draft;
  };
  return yield* mapped(all, settle, CASES_A_SLICE);
}

/** A case has some ten lines. */
const CASES_A_SLICE = 50;

type Unclear = {
  item: Unplaced;
  guess: string;
  procedure: Procedure;
  rows: number;
  examples: { row: number; text: string }[];
};

function asked(label: string, { item: { stepIds }, guess, procedure, rows, examples }: Unclear, ask: Ask): string {
  const name = (id: string) => stepLabel(procedure, id);
  return ask({
    id: `place:${plainWords(label)}`,
    question: `${rows === 1 ? 'One row' : `${rows} rows`} named "${label}" stand between ${stepIds.map((id) => name(id).toLowerCase()).join(' and ')}. Which step is it there?`,
    options: [
      ...stepIds.map((id) => ({ value: id, label: name(id) })),
      { value: 'leave', label: 'leave these rows out' },
    ],
    guess,
    examples,
  });
}
