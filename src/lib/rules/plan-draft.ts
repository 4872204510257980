import type { AimedEyes, Measure } from '../model';
import { defaultStop } from './defaults';
import { eyeFitsOf, type Fit } from './fits';
import type { GivenReason, PlanReason } from './reasons';
import type { Rule } from './rule';
import { safetyRules } from './rules-safety';
import { whatRules } from './rules-what';
import { afterEarlier, longerWith, ofTheEye, whenRules } from './rules-when';
import { possibleDrills } from './practice-month';
import { rulesThresholds } from './thresholds';
import type { Guidance, PlanDraft, StepFacts } from './types';

/** All rules, in the order in which ties are settled. */
export const rules: readonly Rule[] = [...safetyRules, ...whenRules, ...whatRules];

type Fired = { rule: Rule; reason: PlanReason };

/**
 * From what the record shows of a step to what to read and rehearse: at most three checkpoints, all reminders that
 * apply, at least one stop sign and one drill off the patient, each with its reason. Pure; the same facts and pages
 * give the same draft.
 * @param aimed the kind of eye the goal is aimed at: what is written for it comes first, what would be wrong in it is not given
 */
export function planDraft(all: StepFacts, guidance: Guidance, aimed: AimedEyes | null = null): PlanDraft {
  const facts = aimed ? aboutThese(all, aimed) : all;
  const fired = firedRules(facts);
  return {
    stepId: facts.step.stepId,
    measures: measuresOf(facts, fired),
    checkpoints: checkpointsOf(facts, guidance, fired, aimed),
    reminders: guidance.reminders,
    stop: guidance.stop.length > 0 ? guidance.stop : [defaultStop],
    drills: drillsOf(guidance, fired, facts),
    earlierFirst: longerWith(facts, 'earlier-step').flatMap((pattern) =>
      pattern.earlierStepId ? [{ stepId: pattern.earlierStepId, because: afterEarlier(facts, pattern) }] : [],
    ),
    watch: watched(facts),
    pair: facts.pair,
    because: fired.map(({ reason }) => reason),
  };
}

/** What the record shows of other eyes is no reason for a goal aimed at these. */
function aboutThese(facts: StepFacts, aimed: AimedEyes): StepFacts {
  const others = new Set(ofTheEye(facts).filter(({ factor }) => factor !== factorOf(aimed)));
  return { ...facts, patterns: facts.patterns.filter((pattern) => !others.has(pattern)) };
}

/** Tier, then strength, then id: never the order of the input. */
function firedRules(facts: StepFacts): Fired[] {
  return rules
    .map((rule) => ({ rule, strength: rule.when(facts) }))
    .filter(({ strength }) => strength > 0)
    .sort((a, b) => a.rule.tier - b.rule.tier || b.strength - a.strength || (a.rule.id < b.rule.id ? -1 : 1))
    .flatMap(({ rule }) => {
      const reason = rule.because(facts);
      return reason ? [{ rule, reason }] : [];
    });
}

/** Safety is a measure only where an event asks for it; time only where nothing forbids it and a protected part is watched. */
function measuresOf(facts: StepFacts, fired: readonly Fired[]): Measure[] {
  const never = new Set(fired.flatMap(({ rule }) => rule.never ?? []));
  if (facts.step.hasProtectedParts && watched(facts).length === 0) never.add('time');
  const wanted = fired.flatMap(({ rule }) => rule.measures ?? []);
  const all: Measure[] = [...new Set<Measure>([...wanted, 'time', 'steadiness', 'checkpoints'])];
  const left = all.filter((measure) => !never.has(measure));
  return left.length > 0 ? left : ['safety'];
}

/** One checkpoint for each reason in turn, then a second for each, then those of the page in its own order. */
function checkpointsOf(
  facts: StepFacts,
  guidance: Guidance,
  fired: readonly Fired[],
  aimed: AimedEyes | null,
): PlanDraft['checkpoints'] {
  const chosen = new Map<string, PlanDraft['checkpoints'][number]>();
  const room = () => chosen.size < rulesThresholds.checkpoints;
  const eyes = new Set<Fit>(ofTheEye(facts).flatMap(({ factor }) => eyeFitsOf(factor)));
  const take = (rank: (of: Guidance['checkpoints'][number]) => number, because: GivenReason) => {
    const next = guidance.checkpoints
      .filter(({ notFor }) => !notFor.some((eye) => aimedAt.includes(eye)))
      .filter((each) => !chosen.has(each.id) && rank(each) < Infinity)
      .sort((a, b) => rank(a) - rank(b))[0];
    if (next && room()) chosen.set(next.id, { id: next.id, look: next.look, why: next.why, because });
  };
  const aimedAt: readonly Fit[] = aimed ? eyeFitsOf(factorOf(aimed)) : [];
  for (let round = 0; aimed && round < rulesThresholds.checkpoints; round += 1)
    take(({ fits }) => placeOf(aimedAt, fits), {
      code: 'aimed-eyes',
      stepId: facts.step.stepId,
      label: aimed.label,
      numbers: {},
    });
  for (let round = 0; round < rulesThresholds.checkpoints; round += 1)
    for (const { rule, reason } of fired) {
      // A check that would be wrong in these eyes is not given for their sake.
      const wrong = (notFor: readonly Fit[]) => rule.id === 'certain-eyes' && notFor.some((eye) => eyes.has(eye));
      const before = chosen.size;
      // What names the eye, the event or the part comes before what fits the pattern in general.
      for (const wanted of [...(rule.sees?.(facts) ?? []), rule.fits].map((fit) => [fit].flat()))
        if (chosen.size === before)
          take(({ fits, notFor }) => (wrong(notFor) ? Infinity : placeOf(wanted, fits)), reason);
    }
  for (let round = 0; round < rulesThresholds.checkpoints; round += 1)
    take(() => 0, { code: 'any-case', stepId: facts.step.stepId, numbers: {} });
  return [...chosen.values()];
}

/** As a pattern of the audit names it: a yes is `true` there. */
const factorOf = ({ fact, level }: AimedEyes): string =>
  `${fact}=${level === 'yes' ? 'true' : level === 'no' ? 'false' : level}`;

/** The first of `fits` is what a checkpoint was written for, and counts more than what it also helps with. */
function placeOf(wanted: readonly Fit[], fits: readonly Fit[]): number {
  const place = fits.findIndex((fit) => wanted.includes(fit));
  return place === -1 ? Infinity : place;
}

function drillsOf(
  guidance: Guidance,
  fired: readonly Fired[],
  { step, pair, twoToWatch }: StepFacts,
): PlanDraft['drills'] {
  const because: GivenReason = fired[0]?.reason ?? { code: 'off-the-patient', stepId: step.stepId, numbers: {} };
  return possibleDrills(guidance.drills, twoToWatch).map((drill): PlanDraft['drills'][number] => ({
    ...drill,
    because: pair && drill.where === 'video' ? { code: 'pair', ...pair, numbers: {} } : because,
  }));
}

/** All parts not always seen, least often seen first; else the first part, so that something kept is always watched. */
function watched({ protectedParts }: StepFacts): string[] {
  const share = ({ seen, looked }: { seen: number; looked: number }) => (looked === 0 ? 1 : seen / looked);
  const ordered = [...protectedParts].sort((a, b) => share(a) - share(b));
  const missed = ordered.filter((part) => share(part) < 1);
  return (missed.length > 0 ? missed : ordered.slice(0, 1)).map(({ id }) => id);
}
