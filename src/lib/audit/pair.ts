import { quantile } from '../statistics';
import type { Case, ListRecord, Procedure, Step } from '../model';
import { adjustForEye } from './adjust-for-eye';
import { countedCases, latestShown } from './counted-cases';
import { factOf } from './eye-coding';
import { factPhrase } from '../format';
import { asChosen, stepsOf, type StepChoice } from './merged-steps';
import { stepOf } from './step-point';
import { stepTable } from './step-table';
import { canBeWatched } from './recordings';
import { auditThresholds } from './thresholds';
import type { StepTable } from './types';

export type PairCase = {
  caseId: string;
  code: string;
  /** As recorded, and adjusted for the eye. */
  seconds: number;
  adjusted: number;
  hasRecording: boolean;
  /** Known of it: answered with no event, and not returned to. */
  uneventful: boolean;
  /** Where in the recording: seconds from its start; empty where only lengths are known. */
  stretches: readonly { start: number; end: number }[];
  /** Why this one, each a short clause. */
  because: readonly string[];
};

/** Two recordings worth seeing again: a shorter, uneventful one and a longer one, of the same kind of eye. */
export type Pair =
  | {
      kind: 'pair';
      stepId: string;
      shorter: PairCase;
      longer: PairCase;
      /** What the two eyes share, and where they differ: "nucleus medium". */
      same: readonly string[];
      different: readonly string[];
      /** What should be known before reading anything into the pair. */
      said: readonly string[];
    }
  | { kind: 'cannot'; because: string };

type Candidate = { case_: Case; seconds: number; adjusted: number };

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
  if (index === -1) return { kind: 'cannot', because: 'This step is not in the record.' };
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
  if (candidates.length < needed)
    return {
      kind: 'cannot',
      because: `A pair needs ${needed} cases with this step that were not noted by hand; there are ${candidates.length}.`,
    };

  const times = candidates.map((each) => each.adjusted);
  const adjustedAtAll = candidates.some(({ seconds, adjusted: time }) => Math.abs(time - seconds) > 0.0005);
  const ofTimes = `of your own times${fact ? ' in these eyes' : ''}${adjustedAtAll ? ', adjusted for the eye' : ''}`;
  if (quantile(times, auditThresholds.longerFrom) <= quantile(times, auditThresholds.smoothTo))
    return { kind: 'cannot', because: 'These times hardly differ, so no case stands out as the longer one of a pair.' };
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
  if (!best && ranked.length > 0) return { kind: 'cannot', because: 'There is no other pair of these cases.' };
  if (!best)
    return {
      kind: 'cannot',
      because: `In the shorter part ${ofTimes}, there is no case without an event in which the step was not returned to.`,
    };
  const { shorter, longer, eyes } = best;
  return {
    kind: 'pair',
    stepId,
    shorter: described(shorter, choice, shorterBecause(shorter.case_, step, returns(shorter.case_), ofTimes), returns),
    longer: described(
      longer,
      choice,
      [`among the longer quarter ${ofTimes}, not the very longest`, ...noEvent(longer.case_)],
      returns,
    ),
    same: eyes.same,
    different: eyes.different,
    said: saidOf(best),
  };
}

type Best = { shorter: Candidate; longer: Candidate; eyes: Eyes };
type Eyes = { same: string[]; different: string[]; compared: number };

/** Every pair, the best first. */
function rankedPairs(
  shorters: readonly Candidate[],
  longers: readonly Candidate[],
  step: Step,
  procedure: Procedure,
): Best[] {
  const ranked: (Best & { score: readonly number[] })[] = [];
  for (const shorter of shorters)
    for (const longer of longers) {
      if (longer.seconds <= shorter.seconds) continue;
      const eyes = compared(shorter.case_, longer.case_, procedure);
      const score = [
        -eyes.different.length,
        recordings(shorter, longer),
        eyes.same.length,
        answered(shorter.case_, step),
        Math.min(shorter.case_.sequence, longer.case_.sequence),
        Math.max(shorter.case_.sequence, longer.case_.sequence),
      ];
      ranked.push({ shorter, longer, eyes, score });
    }
  // A stable sort: of pairs that are alike in all of it the one met first stays first.
  return ranked.sort((a, b) => (higher(a.score, b.score) ? -1 : higher(b.score, a.score) ? 1 : 0));
}

const recordings = (...both: readonly Candidate[]) => both.filter(({ case_ }) => case_.recording !== null).length;

/** A shorter case known to have left nothing out is worth more than one never asked about. */
const answered = (case_: Case, { protectedParts }: Step) =>
  (case_.events === null ? 0 : 1) +
  (protectedParts.length > 0 && protectedParts.every(({ id }) => case_.protectedSeen[id]) ? 1 : 0);

/** Same length, compared place by place. */
function higher(a: readonly number[], b: readonly number[]): boolean {
  const place = a.findIndex((value, index) => value !== b[index]);
  return place !== -1 && a[place]! > b[place]!;
}

/** Facts entered in both. Numbers are the same kind of eye within a twentieth. */
function compared(a: Case, b: Case, { facts }: Procedure): Eyes {
  const eyes: Eyes = { same: [], different: [], compared: 0 };
  for (const fact of facts) {
    const [x, y] = [factOf(a, fact), factOf(b, fact)];
    if (x === null || y === null) continue;
    eyes.compared += 1;
    const alike = typeof x === 'number' && typeof y === 'number' ? Math.abs(x - y) <= 0.05 * Math.abs(x) : x === y;
    if (alike) eyes.same.push(factPhrase(fact, x));
    else eyes.different.push(`${factPhrase(fact, x)} against ${factPhrase(fact, y)}`);
  }
  return eyes;
}

function returnsIn(table: StepTable, index: number): (case_: Case) => boolean | null {
  const counts = new Map(table.cases.map(({ id }, place) => [id, table.returnedTo[index]![place]!]));
  return ({ id }) => {
    const count = counts.get(id);
    return count === undefined || Number.isNaN(count) ? null : count > 0;
  };
}

const noEvent = (case_: Case) => (case_.events === null ? [] : ['no event']);

function shorterBecause(case_: Case, { protectedParts }: Step, returns: boolean | null, ofTimes: string): string[] {
  const seen = protectedParts.length > 0 && protectedParts.every(({ id }) => case_.protectedSeen[id]);
  return [
    `in the shorter part ${ofTimes}, not the very shortest`,
    ...(returns === false ? ['not returned to'] : []),
    ...noEvent(case_),
    ...(seen ? ['protected parts seen'] : []),
  ];
}

function described(
  { case_, seconds, adjusted }: Candidate,
  choice: StepChoice,
  because: readonly string[],
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
    because,
  };
}

function saidOf({ shorter, longer, eyes }: Best): string[] {
  const silent = [shorter, longer].flatMap(({ case_ }) => (case_.events === null ? [case_.code] : []));
  return [
    ...(eyes.compared === 0 ? ['No fact of the eye was entered in both cases, so the eyes may differ.'] : []),
    ...(silent.length > 0
      ? [`Events were not answered in ${silent.length === 2 ? 'either case' : silent.join()}.`]
      : []),
  ];
}
