import type { NotANumber, Outcome } from '../model';
import type { Cannot } from './cannot';
import { aimedBeside } from './aimed-beside';
import { judgeCases, notJudged, type JudgedCases } from './judge-cases';
import { notANumber, recordNotANumber } from './not-a-number';
import type { ResultInput } from './result-input';
import { leftOutSeen, pausedBecause, withLeftOut } from './result-safety';
import { casesWithIds } from './span';
import { practiceThresholds as set } from './thresholds';

/**
 * What the window shows, once, when it is full. Effects are on the log scale; times in seconds. Pure, and the same for
 * one seed; the caller stores it and shows it later as it was. Cases erased or left out since are not in it.
 * Too little data comes back as `cannot` with its reason, never as an exception or NaN.
 */
export function resultFor(input: ResultInput): Outcome {
  const baseline = casesWithIds(input.cases, input.baseline.caseIds);
  const window = casesWithIds(input.cases, input.windowIds);
  const wrong = wrongNumber(input);
  const beside = input.eyes && !wrong ? aimedBeside(input, input.eyes, baseline, window) : null;
  const judged = wrong ? notJudged(wrong.why) : judgeCases(input, baseline, window, beside?.excess);
  const seen = leftOutSeen(input);
  const withThem =
    seen.length > 0 && !wrong ? judgeCases(input, ...withLeftOut(input, baseline, window, seen), beside?.excess) : null;
  // Safety is asked even so, by the published rate where the given one is none.
  const paused = pausedBecause(isRate(input.seriousRate?.rate) ? input : { ...input, seriousRate: null }, baseline);
  const gone = input.baseline.caseIds.length + input.windowIds.length - baseline.length - window.length;
  return {
    kind: paused.length > 0 ? 'paused' : judged.kind,
    measure: input.measure,
    against: judged.time?.against ?? null,
    plain: judged.time?.plain ?? null,
    rest: judged.time?.rest ?? null,
    spread: judged.spread,
    paused,
    selectionAllowance: wrong ? 0 : input.baseline.selectionAllowance,
    steer: wrong ? null : input.baseline.steer,
    baselineMedian: wrong ? null : (input.baseline.frozen?.median ?? null),
    rangeBaseline: judged.rangeBaseline,
    rangeWindow: judged.rangeWindow,
    notes: notesOf(input, judged, seen.length),
    priorTrend: judged.priorTrend?.change ?? null,
    ...(judged.priorTrend
      ? { priorTrendRange: [judged.priorTrend.low, judged.priorTrend.high] as [number, number] }
      : {}),
    adjusted: judged.adjusted,
    leftOutSeen: seen.length,
    kindWithLeftOut: withThem?.kind ?? null,
    powerForAFifth: judged.powerForAFifth,
    // The pause is the result; why nothing could be said about time is then among the caveats.
    cannot: paused.length > 0 ? null : judged.cannot,
    ...(judged.neighbours.length > 0 ? { neighbours: judged.neighbours } : {}),
    ...(beside ? { aimed: { ...beside, withoutExcess: judged.withoutExcess } } : {}),
    caveats: [
      ...judged.caveats,
      ...(gone > 0 ? [{ code: 'gone-since', cases: gone } as const] : []),
      ...(paused.length > 0 && judged.cannot ? [{ code: 'paused-and-cannot', why: judged.cannot } as const] : []),
    ],
  };
}

const isRate = (rate: number | undefined) => rate === undefined || (rate > 0 && rate < 1);

/** `steer` and the frozen model come from the same start; a broken one gives nothing to compare with. */
const wrongNumber = ({
  cases,
  lists,
  baseline,
  seed,
  permutations,
  seriousRate,
  casesBefore,
}: ResultInput): Cannot<NotANumber> | null =>
  recordNotANumber({ cases, lists }) ??
  notANumber({
    'selection-allowance': baseline.selectionAllowance,
    'selection-allowance-spread': baseline.selectionAllowanceSpread,
    steer: baseline.steer,
    'baseline-median': baseline.frozen?.median,
    'baseline-p20': baseline.frozen?.p20,
    adjustment: [...(baseline.frozen?.coefficients ?? []), ...(baseline.frozen?.centre ?? [])],
    seed,
    permutations,
    'serious-rate': isRate(seriousRate?.rate) ? 0 : NaN,
    'cases-before': casesBefore,
  });

function notesOf(input: ResultInput, judged: JudgedCases, leftOut: number): Outcome['notes'] {
  const shorter = judged.kind === 'shorter';
  const notes: Outcome['notes'] = [];
  if (shorter && judged.priorTrend !== null) notes.push('prior-trend');
  if (shorter && earlyCases(input)) notes.push('experience');
  if (leftOut > 0) notes.push('left-out');
  if (input.look === 'second') notes.push('second-look');
  if (!judged.listsKnown) notes.push('lists-unknown');
  if (judged.sharedHands) notes.push('shared-hands');
  if (judged.neighbours.length > 0) notes.push('neighbour-longer');
  if (judged.caveats.length > 0) notes.push('facts-left-out');
  return notes;
}

/** Within the first 300 of the procedure. Not said how many came before: taken as early unless known not to be in training. */
function earlyCases({ cases, procedure, windowIds, casesBefore = null, inTraining = null }: ResultInput): boolean {
  if (casesBefore === null && inTraining === false) return false;
  const last = Math.max(...casesWithIds(cases, windowIds).map((one) => one.sequence));
  const done = cases.filter((one) => one.procedureId === procedure.id && one.sequence <= last).length;
  return (casesBefore ?? 0) + done <= set.experienceCases;
}
