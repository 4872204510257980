import { auditOf } from '../../src/lib/audit';
import type { ReferenceSet } from '../../src/lib/model';
import { suggestionOf } from '../../src/lib/rules';
import type { SafetyFacts, Suggestion } from '../../src/lib/rules/types';
import { nineEqualSteps, plainProcedure, recordOf, referenceOf, type World } from './simulated-record';

const USAGE = 'npm run bench -- nothing-stands-out [--runs 500] [--seed 1] [--json]';

type Io = { out: (text: string) => void; err: (text: string) => void };

/** In a record in which nothing stands out, "nothing" must be the answer in at least this share. */
export const NOTHING_BAR = 0.8;

const eight = Array.from({ length: 8 }, () => 60);

/** Worlds of nine steps; in all but the first, s1 (and s2) truly differ. `equal`: the bar holds. */
const WORLDS: readonly { name: string; equal: boolean; world: (cases: number) => World }[] = [
  { name: 'nine equal steps', equal: true, world: nineEqualSteps },
  { name: 's1 twice as long', equal: false, world: (cases) => ({ ...nineEqualSteps(cases), usual: [120, ...eight] }) },
  {
    name: 's1, s2 twice as long',
    equal: false,
    world: (cases) => ({ ...nineEqualSteps(cases), usual: [120, 120, ...eight.slice(1)] }),
  },
  {
    name: 's1 spread 0.35',
    equal: false,
    world: (cases) => ({ ...nineEqualSteps(cases), logSd: [0.35, ...eight.map(() => 0.22)] }),
  },
];
const SIZES = [20, 40, 80, 100] as const;
const REFERENCE_CASES = 24;
/** Fewer than on the screens: the answer turns on a share near 0.65, which 500 resamples give to 0.02. */
const RESAMPLES = 500;

export type Tally = {
  world: string;
  cases: number;
  reference: boolean;
  runs: number;
  kinds: Record<string, number>;
  right: number;
};

const noEvents: SafetyFacts = { steps: [], monitorSignalled: false, unreviewedElsewhere: 0 };

/** One record of a world and what is suggested of it. */
export function suggestionIn(
  world: World,
  references: readonly ReferenceSet[],
  seed: number,
  resamples = RESAMPLES,
): Suggestion {
  const audit = auditOf({
    cases: recordOf(world, seed),
    lists: [],
    procedure: plainProcedure(9),
    references,
    seed: 1,
    resamples,
  });
  return suggestionOf(audit, noEvents);
}

/**
 * How often each kind of suggestion is made in records whose truth is known: sets and checks the thresholds of
 * "nothing stands out".
 *
 * @returns 0 when the bar is kept for nine equal steps at every size, two Monte-Carlo errors considered; else 1; 2 for a wrong call.
 */
export async function run(args: readonly string[], io: Io = standard): Promise<number> {
  const asked = options(args);
  if (!asked) {
    io.err(`${USAGE}\n`);
    return 2;
  }
  const tallies: Tally[] = [];
  let missed = 0;
  for (const { name, equal, world } of WORLDS)
    for (const cases of SIZES)
      for (const reference of [false, true]) {
        const tally = tallied(name, world(cases), cases, reference, asked);
        tallies.push(tally);
        const share = (tally.kinds['nothing'] ?? 0) / asked.runs;
        if (equal && share < NOTHING_BAR - 2 * Math.sqrt((share * (1 - share)) / asked.runs)) missed += 1;
        if (!asked.json) io.out(`${inWords(tally)}\n`);
        await new Promise((resolve) => setTimeout(resolve, 0));
      }
  if (asked.json) io.out(`${JSON.stringify({ runs: asked.runs, seed: asked.seed, tallies, missed })}\n`);
  else io.out(missed === 0 ? 'The bar is kept.\n' : `Missed ${missed} times.\n`);
  return missed === 0 ? 0 : 1;
}

function tallied(
  name: string,
  world: World,
  cases: number,
  reference: boolean,
  { runs, seed }: { runs: number; seed: number },
): Tally {
  const kinds: Record<string, number> = {};
  let right = 0;
  for (let number = 0; number < runs; number += 1) {
    const at = seed * 1_000_000 + cases * 1000 + number;
    // The reference set is as the surgeon would be if nothing stood out.
    const references = reference ? [referenceOf(nineEqualSteps(REFERENCE_CASES), at + 500_000)] : [];
    const { kind, steps } = suggestionIn(world, references, at);
    kinds[kind] = (kinds[kind] ?? 0) + 1;
    if (steps.includes('s1')) right += 1;
  }
  return { world: name, cases, reference, runs, kinds, right };
}

function inWords({ world, cases, reference, runs, kinds, right }: Tally): string {
  const of = (count: number) => `${((100 * count) / runs).toFixed(0)}`;
  const shares = Object.entries(kinds)
    .sort(([a], [b]) => (a < b ? -1 : 1))
    .map(([kind, count]) => `${kind} ${of(count)}`);
  return `${world.padEnd(22)} ${String(cases).padStart(3)} cases${reference ? ', reference set' : ''}: ${shares.join(', ')} of 100; s1 named in ${of(right)}`;
}

function options(args: readonly string[]): { runs: number; seed: number; json: boolean } | null {
  const asked = { runs: 500, seed: 1, json: false };
  for (let at = 0; at < args.length; at += 1) {
    if (args[at] === '--json') asked.json = true;
    else if (args[at] === '--runs') asked.runs = Number(args[(at += 1)]);
    else if (args[at] === '--seed') asked.seed = Number(args[(at += 1)]);
    else return null;
  }
  return Number.isInteger(asked.runs) && asked.runs > 0 && Number.isInteger(asked.seed) ? asked : null;
}

const standard: Io = {
  out: (text) => void process.stdout.write(text),
  err: (text) => void process.stderr.write(text),
};
