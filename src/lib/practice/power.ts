import { chanceOfShorter, foretoldBy, type Foretold, type StartArrays } from './chance-of-shorter';
import { practiceThresholds as set } from './thresholds';

export type Chance = {
  chance: number;
  low: number;
  high: number;
  tenths: number;
  word: 'likely' | 'even' | 'unlikely';
};
export type ChanceBySize = { twenty: Chance; forty: Chance };

export type Power = {
  /** Of reaching the lower end of the expected range; `null` where it is not known. */
  steer: ChanceBySize | null;
  tenth: ChanceBySize;
  fifth: ChanceBySize;
  /** Fewer than 40 baseline cases: say only likely, even, unlikely. */
  coarse: boolean;
};

export type PowerInput = StartArrays & {
  selectionAllowance: number;
  steer: number | null;
  /**
   * Aimed at certain eyes: in 5 of 100 windows these are clearly more frequent by chance, and the bound then leaves
   * hardly any *shorter*.
   */
  aimed?: boolean;
};

/**
 * Can twenty cases show it? How often a window of twenty or forty would be called *shorter* if this step alone became a
 * tenth, or a fifth, shorter. The range comes from the interval of the spread. `null` where the step cannot be fitted
 * against the rest.
 */
export function powerOf(input: PowerInput): Power | null {
  const foretold = foretoldBy(input);
  if (!foretold) return null;
  const sizes = (change: number): ChanceBySize => ({
    twenty: chanceOf(foretold, change, 20, input),
    forty: chanceOf(foretold, change, 40, input),
  });
  return {
    steer: input.steer === null ? null : sizes(input.steer),
    tenth: sizes(Math.log(0.9)),
    fifth: sizes(Math.log(0.8)),
    coarse: foretold.against.n < set.powerInTenthsFrom,
  };
}

/** Chance (0..1) that a window of `size` cases would have shown a fifth; `null` where the baseline cases do not tell. */
export function chanceOfFifth(start: StartArrays, size: number, selectionAllowance: number): number | null {
  const foretold = size < set.restCases ? null : foretoldBy(start);
  return foretold && chanceOfShorter(foretold, Math.log(0.8), size, selectionAllowance);
}

function chanceOf(
  foretold: Foretold,
  change: number,
  size: number,
  { selectionAllowance, aimed }: Pick<PowerInput, 'selectionAllowance' | 'aimed'>,
): Chance {
  const unbounded = aimed ? set.moreSuchEyesConfidence : 1;
  const at = (wider: number) => unbounded * chanceOfShorter(foretold, change, size, selectionAllowance, wider);
  const reach = Math.exp((1.96 * set.spreadError) / Math.sqrt(2 * foretold.against.freedom));
  const chance = at(1);
  return {
    chance,
    low: at(reach),
    high: at(1 / reach),
    tenths: Math.round(chance * 10),
    word: chance >= 2 / 3 ? 'likely' : chance > 1 / 3 ? 'even' : 'unlikely',
  };
}
