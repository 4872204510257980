import { quantile } from '../statistics';
import type { Case, ListRecord, Procedure, Step } from '../model';
import { adjustForEye } from './adjust-for-eye';
import { countedCases, latestShown } from './counted-cases';
import { factOf } from './eye-coding';
import type { OfTimes, Pair, PairCannot, PairCase, PairCaveat, PairReason } from './pair-types';
import { compared, rankedPairs, type Candidate, type RankedPair } from './ranked-pairs';
import { asChosen, stepsOf, type StepChoice } from './merged-steps';
import { stepOf } from './step-point';
import { stepTable } from './step-table';
import { canBeWatched } from './recordings';
import { auditThresholds } from './thresholds';
import type { StepTable } from './types';

/**
 * The shorter and the longer case of a step. Shorter: not returned to, no event, no protected part missed, and a time between
 * the own 15th and 40th percentile. Longer: no event, between the 75th and 95th. Of all such pairs the one whose eyes
 * differ least, with recordings if there are any, protected parts and events answered, and most recent.
 */
export function pairOf(input: {
  cases: readonly Case[];
  lists: readonly ListRecord[];
  procedure: Procedure;
  stepId: string;
  shown?: number;
  /** Only among these eyes: those in which the step takes longer. */
  within?: { factId: string; levels: readonly string[] } | null;
  /** Better pairs passed over: another pair is asked for. */
  skip?: number;
}): Pair {
  const { procedure, lists, stepId, shown = 100 } = input;
  const table = stepTable(latestShown(countedCases(input.cases, procedure), shown), procedure, lists, {
    wanted: [stepId],
  });
  const index = table.stepIds.indexOf(stepId);
  if (index === -1) return cannot({ code: 'no-such-step' });
  const step = stepOf(table, stepId);
  const choice = stepsOf(table.cases, procedure, [stepId])[index]!;
  const adjusted = adjustForEye(table).adjusted[index]!;
  const fact = input.within && procedure.facts.find(({ id }) => id === input.within?.factId);
  const isWithin = (case_: Case) => !fact || (input.within?.levels ?? []).includes(String(factOf(case_, fact)));
  const needed = fact ? auditThresholds.pairWithinFrom : auditThresholds.pairFrom;
  const candidates = table.cases.flatMap((case_, place): Candidate[] =>
    Number.isNaN(adjusted[place]) || !isWithin(case_) || !canBeWatched(case_)
      ? []
      : [{ case_, seconds: table.seconds[index]![place]!, adjusted: adjusted[place]! }],
  );
  if (candidates.length < needed) return cannot({ code: 'too-few-cases', needed, cases: candidates.length });

  const times = candidates.map((each) => each.adjusted);
  const adjustedAtAll = candidates.some(({ seconds, adjusted: time }) => Math.abs(time - seconds) > 0.0005);
  const ofTimes: OfTimes = { sameEyes: Boolean(fact), adjusted: adjustedAtAll };
  if (quantile(times, auditThresholds.longerFrom) <= quantile(times, auditThresholds.smoothTo))
    return cannot({ code: 'hardly-differ' });
  const within = ({ adjusted: time }: Candidate, from: number, to: number) =>
    time >= quantile(times, from) && time <= quantile(times, to);
  const returns = returnsIn(table, index);
  const quiet = candidates.filter(({ case_ }) => !case_.events?.length);
  // "Shorter" must hold for the recorded time too, or a time above the median would be called shorter.
  const middle = quantile(
    candidates.map(({ seconds }) => seconds),
    0.5,
  );
  /** The same among its own kind of eye, where enough are alike in every fact known of both. */
  const middleOfKin = ({ case_ }: Candidate): number => {
    const kin = candidates.filter((other) => compared(case_, other.case_, procedure).different.length === 0);
    if (kin.length < auditThresholds.pairWithinFrom) return Infinity;
    return quantile(
      kin.map(({ seconds }) => seconds),
      0.5,
    );
  };
  const shorters = quiet.filter(
    (each) =>
      each.seconds < middle &&
      each.seconds < middleOfKin(each) &&
      within(each, auditThresholds.smoothFrom, auditThresholds.smoothTo) &&
      !returns(each.case_) &&
      step.protectedParts.every(({ id }) => each.case_.protectedSeen[id] !== false),
  );
  const longers = quiet.filter((each) => within(each, auditThresholds.longerFrom, auditThresholds.longerTo));
  const ranked = rankedPairs(shorters, longers, step, procedure);
  const best = ranked[input.skip ?? 0];
  if (!best) return cannot(ranked.length > 0 ? { code: 'no-other' } : { code: 'none-undisturbed', times: ofTimes });
  const { shorter, longer, eyes } = best;
  return {
    kind: 'pair',
    stepId,
    shorter: described(shorter, choice, whyShorter(shorter.case_, step, returns(shorter.case_), ofTimes), returns),
    longer: described(longer, choice, [{ code: 'longer-quarter', times: ofTimes }, ...noEvent(longer.case_)], returns),
    same: eyes.same,
    different: eyes.different,
    caveats: caveatsOf(best),
  };
}

function returnsIn(table: StepTable, index: number): (case_: Case) => boolean | null {
  const counts = new Map(table.cases.map(({ id }, place) => [id, table.returnedTo[index]![place]!]));
  return ({ id }) => {
    const count = counts.get(id);
    return count === undefined || Number.isNaN(count) ? null : count > 0;
  };
}

const cannot = (why: PairCannot): Pair => ({ kind: 'cannot', why });

const noEvent = (case_: Case): PairReason[] => (case_.events === null ? [] : [{ code: 'no-event' }]);

function whyShorter(case_: Case, { protectedParts }: Step, returns: boolean | null, times: OfTimes): PairReason[] {
  const seen = protectedParts.length > 0 && protectedParts.every(({ id }) => case_.protectedSeen[id]);
  return [
    { code: 'shorter-part', times },
    ...(returns === false ? [{ code: 'not-returned-to' } as const] : []),
    ...noEvent(case_),
    ...(seen ? [{ code: 'protected-parts-seen' } as const] : []),
  ];
}

function described(
  { case_, seconds, adjusted }: Candidate,
  choice: StepChoice,
  why: readonly PairReason[],
  returns: (case_: Case) => boolean | null,
): PairCase {
  const stretches = asChosen(case_, choice).stretches.flatMap(({ kind, stepId: of, start, end }) =>
    kind === 'step' && of === choice.stepId && start !== null && end !== null ? [{ start, end }] : [],
  );
  return {
    caseId: case_.id,
    code: case_.code,
    seconds,
    adjusted,
    hasRecording: case_.recording !== null,
    uneventful: case_.events?.length === 0 && returns(case_) !== true,
    stretches,
    why,
  };
}

function caveatsOf({ shorter, longer, eyes }: RankedPair): PairCaveat[] {
  const silent = [shorter, longer].filter(({ case_ }) => case_.events === null);
  const of = silent.length === 1 ? (silent[0]?.case_.code ?? null) : null;
  return [
    ...(eyes.compared === 0 ? [{ code: 'no-fact-in-both' } as const] : []),
    ...(silent.length > 0 ? [{ code: 'events-not-answered', of } as const] : []),
  ];
}
