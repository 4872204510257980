import { describe, expect, it } from 'vitest';
import type { Case, ReferenceSet } from '../../../src/lib/model';
import { lastingFor, resultFor, startGoal, windowOf } from '../../../src/lib/practice';
import { oneRun } from '../../bench/characteristics-judge';
import { rows } from '../../bench/characteristics-rows';
import { simulate, type SimulatedRecord } from '../../bench/characteristics-simulate';
import { case_, fact, length, procedure, step } from '../../made-up/cases';
import { goalAfter, listsFor } from '../../made-up/month';

/*
 * The bench feeds arrays to the core; the screens feed cases. Here the same simulated surgeon goes both ways: what the
 * bench measures is what a surgeon is told.
 */
const stepIds = Array.from({ length: 9 }, (_, index) => `s${index}`);
const nine = procedure(
  stepIds.map((id) => step(id)),
  [fact('dense', 'yes-no'), fact('pupil', 'yes-no')],
);

const casesOf = ({ y, columns, list }: SimulatedRecord): Case[] =>
  Array.from(list, (number, at) =>
    case_(
      at + 1,
      y.map((row, index) => length(stepIds[index]!, Math.exp(row[at]!))),
      {
        listId: `list-${number + 1}`,
        facts: { dense: columns[0]![at] === 1, pupil: columns[1]![at] === 1 },
        events: [],
      },
    ),
  );

/** Every step takes the reference set 60 s. */
const reference: ReferenceSet = {
  id: 'reference-1',
  label: 'made up',
  procedureId: nine.id,
  agreedAt: '2026-01-01T10:00:00Z',
  invented: true,
  cases: Array.from({ length: 12 }, (_, at) => ({
    reader: 'R1',
    list: Math.floor(at / 3),
    facts: {},
    stepSeconds: Object.fromEntries(stepIds.map((id) => [id, 60])),
  })),
};

function onScreens(name: string, run: number, stepIndex: number) {
  const { world } = rows.find((row) => row.world.name === name)!;
  const cases = casesOf(simulate(world, 1, run));
  const lists = listsFor(cases);
  const stepId = stepIds[stepIndex]!;
  const started = startGoal({
    cases,
    lists,
    procedure: nine,
    references: [reference],
    stepId,
    measure: world.measure,
    chosenBy: world.picked === 'not' ? 'own' : world.picked,
    seed: 1 + run,
    engine: 'test',
    from: world.start + 1,
  });
  if (started.kind === 'cannot') throw new Error(started.why.code);
  const goal = goalAfter(world.start, { procedureId: nine.id, stepId, baseline: started.baseline });
  const { windows } = windowOf(goal, cases, lists, nine);
  const input = { cases, lists, procedure: nine, baseline: started.baseline, stepId };
  return {
    bench: oneRun(world, 1, run)!,
    outcome: resultFor({ ...input, windowIds: windows[0]!, measure: world.measure, look: 'first', seed: 1 + run }),
    lasting: lastingFor({ ...input, windows }),
    baseline: started.baseline,
  };
}

describe('the bench and the screens say the same of the same surgeon', () => {
  it.each([0, 1, 2, 3, 4, 5])('step alone −20 %%, run %i', (run) => {
    const { bench, outcome } = onScreens('alone-40', run, 4);
    expect(outcome.kind).toBe(bench.kind);
    expect(outcome.plain!.rawHigh < 0).toBe(bench.plainShorter);
    expect(outcome.powerForAFifth).toBeCloseTo(bench.predicted(), 1);
  });

  it('picked by level: the same allowance and the same result', () => {
    // Runs in which at least five baseline cases have each fact: with fewer the screens leave the fact out.
    for (const run of [0, 2]) {
      const { bench, outcome, baseline } = onScreens('worst-level-40', run, pickedStep(run));
      expect(baseline.selectionAllowance).toBeCloseTo(bench.allowance, 9);
      expect(outcome.kind).toBe(bench.kind);
    }
  });

  it('steadier, and lasting', () => {
    for (const run of [0, 1])
      expect(onScreens('steady-halved-40-20', run, 4).outcome.kind).toBe(
        oneRun(rows.find((row) => row.world.name === 'steady-halved-40-20')!.world, 1, run)!.kind,
      );
    const { bench, lasting } = onScreens('lasts', 0, 4);
    expect(bench.lasting.length).toBe(3);
    expect(lasting.map(({ kind }) => kind)).toEqual(bench.lasting);
  });
});

function pickedStep(run: number): number {
  const { world } = rows.find((row) => row.world.name === 'worst-level-40')!;
  return oneRun(world, 1, run)!.step;
}
