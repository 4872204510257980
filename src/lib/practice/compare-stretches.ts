import type { Effect } from '../model';
import { tCdf } from '../statistics';
import { cannot, type Cannot, type CannotCompare } from './cannot';
import { countByPeriod, windowIndicators, type ChangeInput } from './change';
import { effectOf } from './effect';
import { periodFit, standardError, type PeriodFit } from './period-fit';
import { meanOfParts, restOfOperation, type Rest } from './rest-of-operation';
import { stepDown } from './step-down';
import { practiceThresholds as set } from './thresholds';

export type StretchArrays = Pick<ChangeInput, 'y' | 'columns' | 'list' | 'listsKnown'> & {
  /** 0 for cases of the earlier stretch, 1 for those of the later. */
  window: Int32Array;
  /** Steps compared, by their place in `y`: done often enough in both stretches. */
  steps: readonly number[];
  /** Steps that may stand for the rest of one, once those found have left it. */
  othersOf: (step: number, found: readonly number[]) => readonly number[];
  /** Chance that anything is named when nothing has changed, 0..1. */
  alpha: number;
};

export type Member = number | 'whole';

/** One step against the rest of the same operations, or all steps together; effects are of the later stretch. */
export type Compared =
  | {
      kind: 'shorter' | 'longer' | 'not-clear';
      effect: Effect;
      /** Two-sided, of the last fit it entered. */ p: number;
    }
  | Cannot<CannotCompare>;

type Fitted = { fit: PeriodFit; values: Float64Array; plain: PeriodFit | null; p: number; own: boolean };

/**
 * What changed between two stretches of a record: every step against the rest of the same operations (the estimate of
 * the result, without an allowance) and all of them together are one family, named by Holm's step-down. A step found
 * leaves the rest of the others and of the whole, which are fitted again: one step that is 40 % shorter would otherwise
 * make all others look longer. Arrays in, answers out; screens and bench use this same function.
 */
export function compareStretches(input: StretchArrays): ReadonlyMap<Member, Compared> {
  const lead = windowIndicators(input.window, 1);
  const all = restOfOperation({ ...input, lead, windows: 1, others: [...input.y.keys()] });
  const problems = new Map<Member, Cannot<CannotCompare>>();
  const tested = (member: Member, found: readonly number[]): Fitted | Cannot<CannotCompare> => {
    const values =
      member === 'whole'
        ? meanOf(all, without(input.steps, found), input)
        : against(member, all, input.othersOf(member, found), input);
    if (!(values instanceof Float64Array)) return values;
    const problem = tooFew(values, input);
    const fit = problem ?? periodFit({ outcome: values, lead, columns: input.columns, list: input.list });
    if (fit.kind === 'cannot') return fit;
    const plain = member === 'whole' ? null : (all.fits.get(member) ?? null);
    return { fit, values, plain, p: twoSided(fit), own: member === 'whole' || ofItsOwn(fit, plain) };
  };
  const round = (open: readonly Member[], found: readonly Member[]) => {
    const steps = found.filter((each) => each !== 'whole');
    const answers = new Map<Member, Fitted>();
    for (const member of open) {
      const answer = tested(member, steps);
      if ('kind' in answer) problems.set(member, answer);
      else answers.set(member, answer);
    }
    return answers;
  };
  const members: Member[] = [...input.steps, 'whole'];
  const family = [...round(members, []).keys()];
  const { found, open } = stepDown(family, input.alpha, round);
  return new Map(
    members.map((member): [Member, Compared] => {
      const named = found.get(member);
      const answer = named ?? open.get(member);
      if (!answer) return [member, problems.get(member) ?? cannot({ code: 'too-few' })];
      const kind = !named ? 'not-clear' : answer.fit.estimates[0]! < 0 ? 'shorter' : 'longer';
      return [member, { kind, effect: effect(member, answer, input), p: answer.p }];
    }),
  );
}

/** d = y − r, from the parts fitted once for all steps. */
function against(
  step: number,
  all: Rest,
  others: readonly number[],
  input: StretchArrays,
): Float64Array | Cannot<CannotCompare> {
  const rest = meanOf(all, others, input);
  const own = input.y[step] ?? new Float64Array(0);
  return rest instanceof Float64Array ? own.map((value, at) => value - rest[at]!) : rest;
}

function meanOf(all: Rest, steps: readonly number[], { window }: StretchArrays): Float64Array | Cannot<CannotCompare> {
  const parts = steps.flatMap((step) => all.parts.get(step) ?? []);
  return parts.length < set.otherSteps ? cannot({ code: 'few-other-steps' }) : meanOfParts(parts, window.length);
}

function tooFew(values: Float64Array, { window, list, listsKnown }: StretchArrays): Cannot<CannotCompare> | null {
  if (countByPeriod(values, window, 1).some((count) => count < set.restCases))
    return cannot({ code: 'few-rest-cases' });
  const lists = [new Set<number>(), new Set<number>()];
  values.forEach((value, at) => {
    if (Number.isFinite(value)) lists[window[at]!]?.add(list[at]!);
  });
  return listsKnown && lists.some(({ size }) => size < set.listsEachPeriod) ? cannot({ code: 'few-lists' }) : null;
}

/** Did the step itself move, not only the rest? */
function ofItsOwn(fit: PeriodFit, plain: PeriodFit | null): boolean {
  const [estimate, own] = [fit.estimates[0]!, plain?.estimates[0] ?? NaN];
  return estimate < 0 ? own <= estimate * set.ownPart : own >= estimate * set.ownPartLonger;
}

function twoSided(fit: PeriodFit): number {
  return 2 * tCdf(-Math.abs(fit.estimates[0]! / standardError(fit, 0)), fit.df);
}

function effect(member: Member, { fit, values }: Fitted, { window }: StretchArrays): Effect {
  const [start = 0, later = 0] = countByPeriod(values, window, 1);
  return effectOf(fit, 0, {
    selectionAllowance: 0,
    look: 'first',
    counts: { start, window: later },
    about: member === 'whole' ? 'All steps of the operation' : 'This step against the rest of the same operations',
  });
}

const without = (steps: readonly number[], found: readonly number[]) => steps.filter((step) => !found.includes(step));
