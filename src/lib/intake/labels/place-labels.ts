import type { Procedure } from '../../model';
import { mapped, scaled, type Work } from '../../turns';
import type { Draft, Line } from '../cases/draft';
import type { Ledger } from '../ledger';
import { placeAll } from '../stretches/place';
import { plainWords } from './plain-words';
import type { Ask } from '../questions';
import { stepLabel } from '../headings/targets';

/** A line whose label may still stand for several steps. */
export type Unplaced = Line & { stepIds: readonly string[]; label: string };
export type Working = { draft: Draft; lines: Unplaced[] };

/** Lets the place decide, asks about labels that stand between, and leaves out what is not wanted. */
export function* placeLabels(all: readonly Working[], ask: Ask, ledger: Ledger): Work<void> {
  const place = ({ draft, lines }: Working) => {
    const byClock = lines.every(({ start }) => start !== null)
      ? [...lines].sort((a, b) => (a.start ?? 0) - (b.start ?? 0))
      : lines;
    return placeAll(
      byClock,
      ({ stepIds }) => stepIds,
      draft.procedure.steps.map(({ id }) => id),
    );
  };
  const placed = yield* scaled(mapped(all, place), 0, 0.6);
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
  const settle = ({ draft }: Working, index: number) => {
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
  };
  yield* scaled(mapped(all, settle), 0.6, 1);
}
