import type { Procedure } from '../../model';
import { parted, type Steps } from '../../turns';
import type { Draft, Line } from '../cases/draft';
import type { Ledger } from '../ledger';
import { placeAll, type Placed } from '../stretches/place';
import { plainWords } from './plain-words';
import { note, type Ask, type Example } from '../questions';
import { stepLabel } from '../headings/targets';
import { weights } from '../weights';

/** A line whose label may still stand for several steps. */
export type Unplaced = Line & { stepIds: readonly string[]; label: string };
export type Working = { draft: Draft; lines: Unplaced[] };

/** Lets the place decide, asks about labels that stand between, and leaves out what is not wanted. */
export function* placeLabels(all: readonly Working[], ask: Ask, ledger: Ledger): Steps<Draft[]> {
  const unclear = new Map<string, Unclear>();
  const inPlace: { draft: Draft; placed: Placed<Unplaced>[] }[] = [];
  const place = ({ draft, lines }: Working): void => {
    const byClock = lines.every(({ start }) => start !== null)
      ? [...lines].sort((a, b) => (a.start ?? 0) - (b.start ?? 0))
      : lines;
    // As nearly always: each name is that of one step, and nothing is left to its place.
    if (byClock.every(({ stepIds }) => stepIds.length <= 1)) {
      draft.lines = byClock;
      inPlace.push({ draft, placed: [] });
      return;
    }
    const { procedure, code } = draft;
    const order = procedure.steps.map(({ id }) => id);
    const placed = placeAll(byClock, ({ stepIds }) => stepIds, order);
    inPlace.push({ draft, placed });
    for (const { item, stepId, clear } of placed) {
      if (clear) continue;
      const found = unclear.get(item.label) ?? { item, guess: stepId, procedure, rows: 0, examples: [] };
      unclear.set(item.label, found);
      found.rows += 1;
      note(found.examples, item.row, `${code} · ${item.label}`);
    }
  };
  for (const part of parted(all)) {
    yield part.length * weights.case;
    for (const one of part) {
      place(one);
    }
  }
  const answers = new Map([...unclear].map(([label, found]) => [label, asked(label, found, ask)]));
  const settle = ({ draft, placed }: (typeof inPlace)[number]): void => {
    for (const { item, stepId, clear } of placed) {
      const answer = clear ? stepId : (answers.get(item.label) ?? stepId);
      if (answer === 'leave') {
        ledger.refuseRow(
          item.row,
          item.column,
          item.label,
          `"${item.label}" stands between two steps here and was left out, as you chose.`,
        );
        continue;
      }
      // The line itself, not a copy of it: it was made for this, and there may be 300,000.
      item.stepId = item.stepIds.length === 0 ? null : answer;
      draft.lines.push(item);
    }
    const said = [...draft.hands, ...draft.returns];
    if (said.length > 0) {
      const moved = new Map(draft.lines.map(({ row, stepId }) => [row, stepId]));
      for (const one of said) one.stepId = moved.get(one.row) ?? one.stepId;
    }
    if (ledger.named.size > 0) draft.rows = draft.rows.filter(({ row }) => !ledger.named.has(row));
  };
  for (const part of parted(inPlace)) {
    yield part.length * weights.case;
    for (const one of part) {
      settle(one);
    }
  }
  return inPlace.map(({ draft }) => draft);
}

type Unclear = {
  item: Unplaced;
  guess: string;
  procedure: Procedure;
  rows: number;
  examples: Example[];
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
