import { compareStretches, type Member } from '../../src/lib/practice/compare-stretches';
import { practiceThresholds as set } from '../../src/lib/practice/thresholds';
import type { Count, Row } from './characteristics-rows';
import { simulate, type SimulatedRecord } from './characteristics-simulate';
import { world, type World } from './characteristics-worlds';

/** What looking back says of one record: who was named, and whether any step's own 95 % interval leaves 100 out. */
export type LookedBack = { named: readonly Member[]; oneByOne: boolean };

export type LookBackRow = Row<LookedBack> & {
  alpha: number;
  /** First cases of the later stretch; of several dates the one that names anything is taken, as people would. */
  cuts: readonly number[];
};

/** Two stretches of fifty cases, ten lists each. */
const fifty = (parts: Pick<World, 'name' | 'says'> & Partial<World>) => world({ start: 50, window: 50, ...parts });
const HALVES = [50];
/** Every change of list that leaves twenty cases over four lists on both sides. */
const DATES = Array.from({ length: 13 }, (_, at) => 20 + 5 * at);

const less = (share: number) => Math.log(1 - share);
const isStep = (member: Member) => member !== 'whole';
const aStepNamed = (atMost?: number): Count<LookedBack> => ({
  label: 'any step named (wrong)',
  of: ({ named }) => named.some(isStep),
  ...(atMost === undefined ? {} : { atMost }),
});
const anotherNamed = ({ practised }: World, atMost: number): Count<LookedBack> => ({
  label: 'another step named (wrong)',
  of: ({ named }) => named.some((each) => isStep(each) && each !== practised),
  atMost,
});
const stepNamed = ({ practised }: World, atLeast?: number): Count<LookedBack> => ({
  label: 'the step named (right)',
  of: ({ named }) => named.includes(practised),
  ...(atLeast === undefined ? {} : { atLeast }),
});
const anyNamed: Count<LookedBack> = {
  label: 'any step or the whole named (wrong)',
  of: ({ named }) => named.length > 0,
};
const wholeNamed: Count<LookedBack> = { label: 'the whole named', of: ({ named }) => named.includes('whole') };
const oneByOne: Count<LookedBack> = {
  label: 'each step by its own 95 % interval: any',
  of: (said) => said.oneByOne,
};

const nothing = fifty({ name: 'back-nothing', says: 'looking back: nothing changed, 50 + 50' });
const dates = fifty({ name: 'back-dates', says: 'looking back: nothing changed, the best of 13 dates' });
const large = fifty({ name: 'back-large', says: 'looking back: one step −40 %', change: [less(0.4)] });
const fifth = fifty({ name: 'back-fifth', says: 'looking back: one step −20 %', change: [less(0.2)] });
const all = fifty({
  name: 'back-all',
  says: 'looking back: all steps −20 %',
  change: [less(0.2)],
  restChange: less(0.2),
});

export const lookBackRows: readonly LookBackRow[] = [
  { world: nothing, alpha: set.lookBackFixed, cuts: HALVES, counts: [aStepNamed(0.05), anyNamed, oneByOne] },
  { world: dates, alpha: set.lookBackFree, cuts: DATES, counts: [aStepNamed(0.05), anyNamed, oneByOne] },
  {
    world: { ...dates, name: 'back-dates-fixed', says: `${dates.says}, judged as if fixed beforehand` },
    alpha: set.lookBackFixed,
    cuts: DATES,
    counts: [aStepNamed(), anyNamed],
  },
  {
    world: large,
    alpha: set.lookBackFixed,
    cuts: HALVES,
    counts: [anotherNamed(large, 0.06), wholeNamed, stepNamed(large)],
  },
  {
    world: fifth,
    alpha: set.lookBackFixed,
    cuts: HALVES,
    counts: [stepNamed(fifth, 0.8), anotherNamed(fifth, 0.06), wholeNamed],
  },
  {
    world: { ...fifth, name: 'back-fifth-free', says: `${fifth.says}, the date chosen freely` },
    alpha: set.lookBackFree,
    cuts: HALVES,
    counts: [stepNamed(fifth, 0.7)],
  },
  { world: all, alpha: set.lookBackFixed, cuts: HALVES, counts: [wholeNamed, aStepNamed()] },
];

/** One run: a record is made, and looked back on at the cut; of several cuts at the one that names most. */
export function lookBack({ world, alpha, cuts }: LookBackRow, seed: number, run: number): LookedBack {
  const record = simulate(world, seed, run);
  const each = cuts.map((cut) => lookedBackAt(record, cut, alpha));
  return {
    named: each.map(({ named }) => named).reduce((most, named) => (named.length > most.length ? named : most), []),
    oneByOne: each.some((said) => said.oneByOne),
  };
}

function lookedBackAt({ y, columns, list }: SimulatedRecord, cut: number, alpha: number): LookedBack {
  const steps = [...y.keys()];
  const answers = compareStretches({
    y,
    columns,
    list,
    listsKnown: true,
    window: Int32Array.from(list, (_, at) => (at >= cut ? 1 : 0)),
    steps,
    othersOf: (step, found) => steps.filter((other) => other !== step && !found.includes(other)),
    alpha,
  });
  const said = [...answers];
  return {
    named: said.flatMap(([member, { kind }]) => (kind === 'shorter' || kind === 'longer' ? [member] : [])),
    oneByOne: said.some(
      ([member, answer]) =>
        member !== 'whole' && answer.kind !== 'cannot' && (answer.effect.rawHigh < 0 || answer.effect.rawLow > 0),
    ),
  };
}
