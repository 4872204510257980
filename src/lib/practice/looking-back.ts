import { countedCases } from '../audit';
import type { Case, EyeCaveat, ListRecord, Procedure } from '../model';
import { median } from '../statistics';
import { cannot, type Cannot, type CannotLookBack } from './cannot';
import { caseArrays, type CaseArrays } from './case-arrays';
import { compareStretches, type Compared } from './compare-stretches';
import { recordNotANumber } from './not-a-number';
import { restStepsOf } from './rest-steps';
import { practiceThresholds as set } from './thresholds';

export type LookingBackInput = {
  /** The record, or as much of it as may be looked at: a case whose times are hidden must not be in it. */
  cases: readonly Case[];
  lists: readonly ListRecord[];
  procedure: Procedure;
  /** Ids of the cases of each stretch; those that do not count are left out, and counted. */
  earlier: readonly string[];
  later: readonly string[];
  /** The split was fixed before the times were looked at (halves, calendar years, a change dated in the record). */
  fixed: boolean;
};

export type Stretch = {
  cases: readonly Case[];
  /** `null`: not known. */
  lists: number | null;
  /** Ids given of which no case counts. */
  notCounted: number;
};

/** Cases with the step by own hands, and their median as recorded, seconds; `null` without one. */
export type StepInStretch = { n: number; median: number | null };

export type ComparedStep = {
  stepId: string;
  label: string;
  earlier: StepInStretch;
  later: StepInStretch;
  compared: Compared;
};

export type LookingBack =
  | {
      kind: 'compared';
      alpha: number;
      earlier: Stretch;
      later: Stretch;
      /** In the order of the operation. */
      steps: readonly ComparedStep[];
      /** The mean over the steps that could be compared. */
      whole: Compared;
      /** Facts of the eye were taken out of the times; and what was left out of that. */
      adjusted: boolean;
      caveats: readonly EyeCaveat[];
    }
  | (Cannot<CannotLookBack> & { earlier: Stretch; later: Stretch });

/**
 * Two stretches of a record compared, without a goal: was a step, or the whole operation, shorter or longer in the later
 * one? Errors: a returned case where a case is in both, or one of them has too few cases or lists.
 */
export function lookingBack(input: LookingBackInput): LookingBack {
  const counted = countedCases(input.cases, input.procedure);
  const [earlierIds, laterIds] = [new Set(input.earlier), new Set(input.later)];
  const chosen = counted.filter(({ id }) => earlierIds.has(id) || laterIds.has(id));
  const wrong = recordNotANumber({ cases: chosen });
  if (wrong) return { ...wrong, earlier: none(earlierIds), later: none(laterIds) };
  const arrays = caseArrays(chosen, input.procedure, input.lists, '');
  const window = Int32Array.from(arrays.table.cases, ({ id }) => (laterIds.has(id) ? 1 : 0));
  const stretch = (which: 0 | 1, ids: ReadonlySet<string>): Stretch => {
    const cases = arrays.table.cases.filter(({ id }) => ids.has(id));
    const lists = new Set(arrays.list.filter((_, at) => window[at] === which));
    return { cases, lists: arrays.listsKnown ? lists.size : null, notCounted: ids.size - cases.length };
  };
  const both = { earlier: stretch(0, earlierIds), later: stretch(1, laterIds) };
  const problem = problemOf(earlierIds, laterIds, both);
  if (problem) return { ...problem, ...both };

  const alpha = input.fixed ? set.lookBackFixed : set.lookBackFree;
  const rows = arrays.table.stepIds.map((stepId, index) => ({
    stepId,
    index,
    earlier: inStretch(arrays, index, window, 0),
    later: inStretch(arrays, index, window, 1),
  }));
  const enough = rows.filter(({ earlier, later }) => Math.min(earlier.n, later.n) >= set.lookBack.stepCases);
  const answers = compareStretches({
    ...arrays,
    window,
    steps: enough.map(({ index }) => index),
    othersOf: othersOf(arrays, input.procedure),
    alpha,
  });
  const few = cannot({ code: 'few-cases', needed: set.lookBack.stepCases });
  return {
    kind: 'compared',
    alpha,
    ...both,
    steps: rows
      .filter(({ earlier, later }) => earlier.n + later.n > 0)
      .map(({ stepId, index, earlier, later }) => ({
        stepId,
        label: input.procedure.steps.find(({ id }) => id === stepId)?.label ?? stepId,
        earlier,
        later,
        compared: answers.get(index) ?? few,
      })),
    whole: answers.get('whole') ?? few,
    adjusted: arrays.columns.length > 0,
    caveats: arrays.eye.caveats,
  };
}

const none = (ids: ReadonlySet<string>): Stretch => ({ cases: [], lists: null, notCounted: ids.size });

function problemOf(
  earlierIds: ReadonlySet<string>,
  laterIds: ReadonlySet<string>,
  { earlier, later }: { earlier: Stretch; later: Stretch },
): Cannot<CannotLookBack> | null {
  const shared = [...earlierIds].filter((id) => laterIds.has(id)).length;
  if (shared > 0) return cannot({ code: 'in-both', cases: shared });
  const { cases, lists, casesWithoutLists } = set.lookBack;
  const [one, other] = [earlier.lists, later.lists];
  const listsKnown = one !== null && other !== null;
  const needed = listsKnown ? cases : casesWithoutLists;
  if (Math.min(earlier.cases.length, later.cases.length) < needed)
    return cannot({
      code: 'few-cases',
      needed,
      listsKnown,
      earlier: earlier.cases.length,
      later: later.cases.length,
    });
  if (listsKnown && Math.min(one, other) < lists)
    return cannot({ code: 'few-lists', needed: lists, earlier: one, later: other });
  return null;
}

/** Steps that may stand for the rest, as for a result: none that was found, none downstream while three others remain. */
const othersOf =
  ({ table, y }: CaseArrays, procedure: Procedure) =>
  (step: number, found: readonly number[]): number[] =>
    restStepsOf(procedure, table.stepIds, table.stepIds[step] ?? '', {
      underGoal: found.map((index) => table.stepIds[index] ?? ''),
      usable: (id) =>
        (y[table.stepIds.indexOf(id)] ?? new Float64Array(0)).filter(Number.isFinite).length >=
        2 * set.restCasesEachPeriod,
    }).map((id) => table.stepIds.indexOf(id));

function inStretch({ table }: CaseArrays, step: number, window: Int32Array, which: 0 | 1): StepInStretch {
  const own = (table.seconds[step] ?? new Float64Array(0)).filter(
    (value, at) => window[at] === which && Number.isFinite(value),
  );
  return { n: own.length, median: own.length > 0 ? median(own) : null };
}
