import type { Audit, StepAudit } from '../audit/types';
import { certainEyesOf, certainEyesReason } from './certain-eyes';
import type { SuggestionReason } from './reasons';
import { safetyFirst } from './safety-first';
import { shareOn, standingOn, standingViews, type Standing, type StandingView } from './standing';
import { reasonsOn } from './suggestion-reasons';
import { rulesThresholds } from './thresholds';
import type { SafetyFacts, Suggestion } from './types';

const noSteps = { steps: [], view: null, also: [] } as const;

/**
 * Which step the record suggests looking at, if any. In this order: safety first; not enough yet; waiting; nothing
 * stands out; a step in certain eyes where more goes with them than any step differs among the same kind of eye;
 * the step that stands out on two views, else against the reference set, else by seconds, else by spread.
 * Safety stands before "not enough" because it needs no statistics, and waiting before "nothing stands out" because it
 * says more. A step not to be shortened is never suggested for time, nor one with an event in the last 40 cases.
 */
export function suggestionOf(audit: Audit, safety: SafetyFacts): Suggestion {
  const safe = safetyFirst(safety);
  if (safe) return safe;
  if (!audit.enough.enough) return { kind: 'not-enough', ...noSteps, because: notEnough(audit) };

  const quiet = new Set(
    safety.steps
      .filter(({ casesSinceLatest }) => casesSinceLatest !== null && casesSinceLatest < rulesThresholds.quietAfterEvent)
      .map(({ stepId }) => stepId),
  );
  const standings = standingViews.flatMap((view) => standingOn(audit, view) ?? []);
  const offered = standings.flatMap((standing) => {
    const steps = standing.steps.filter(({ stepId }) => !quiet.has(stepId));
    return steps.length > 0 ? [{ ...standing, steps }] : [];
  });
  const held = standings.flatMap(({ steps }) => steps).filter(({ stepId }) => quiet.has(stepId));
  const heldBack = [...new Set(held.map(({ stepId }) => stepId))].map((stepId) =>
    heldBackBecause(stepId, audit, safety),
  );

  if (mostlyWaiting(audit))
    return { kind: 'waiting', ...noSteps, also: alsoOf(offered, []), because: waitingBecause(audit) };
  const found = certainEyesOf(audit, quiet);
  const eyes = found ? { eyes: { ...found, because: [certainEyesReason(found)] } } : {};
  if (found && audit.steps.every((step) => found.seconds > rankedOf(step))) {
    const steps = [found.stepId];
    return { kind: 'eyes', steps, view: null, also: alsoOf(offered, steps), because: heldBack, ...eyes };
  }
  const chosen = choose(offered);
  if (!chosen)
    return heldBack.length > 0
      ? { kind: 'held-back', ...noSteps, because: heldBack, ...eyes }
      : { kind: 'nothing', ...noSteps, because: nothingBecause(audit, standings), ...eyes };
  const { kind, steps, view, level } = chosen;
  const ids = steps.map(({ stepId }) => stepId);
  return {
    kind,
    steps: ids,
    view,
    ...(level ? { level } : {}),
    also: alsoOf(offered, ids),
    because: [...steps.flatMap((step) => reasonsOn(audit, step, view, kind !== 'level' && !level)), ...heldBack],
    ...eyes,
  };
}

/** Which event keeps a step that stands out from being suggested, and for how long. */
function heldBackBecause(stepId: string, { procedure }: Audit, { steps }: SafetyFacts): SuggestionReason {
  const found = steps.find((each) => each.stepId === stepId);
  const [kind] = found?.kinds ?? [];
  const casesAgo = found?.casesSinceLatest ?? 0;
  return {
    code: 'held-back',
    stepId,
    kind: procedure.eventKinds.find(({ id }) => id === kind)?.label ?? kind ?? null,
    numbers: { casesAgo, more: rulesThresholds.quietAfterEvent - casesAgo },
  };
}

type Choice = {
  kind: 'time' | 'steadiness' | 'level' | 'kept';
  steps: readonly StepAudit[];
  view: StandingView;
  level?: NonNullable<Suggestion['level']>;
};

function choose(standings: readonly Standing[]): Choice | null {
  return (
    onTwoViews(standings) ??
    onView(standings, 'reference') ??
    onView(standings, 'seconds') ??
    onView(standings, 'spread')
  );
}

/** First, or not told apart from the first, on two views: the most certain view wins, then the larger difference. */
function onTwoViews(standings: readonly Standing[]): Choice | null {
  const steps = new Map(standings.flatMap(({ steps }) => steps.map((step) => [step.stepId, step] as const)));
  const found = [...steps.values()].flatMap((step) => {
    const here = standings.filter((standing) => standing.steps.includes(step)).map(({ view }) => view);
    const level = standingViews.filter((view) => shareOn(step, view) >= rulesThresholds.level);
    if (step.notToShorten || level.length < 2) return [];
    const view = [...here].sort((a, b) => shareOn(step, b) - shareOn(step, a))[0];
    return view ? [{ step, view }] : [];
  });
  const [best, next] = found.sort(
    (a, b) => shareOn(b.step, b.view) - shareOn(a.step, a.view) || rankedOf(b.step) - rankedOf(a.step),
  );
  if (!best) return null;
  // Two that cannot be told apart on the same view, and both on a second one: the record does not choose between them.
  const together = standings.find(({ view }) => view === best.view);
  if (next && next.view === best.view && together && together.steps.length > 1) return onView(standings, best.view);
  const others = (together?.steps ?? []).filter((step) => step !== best.step).map(({ stepId }) => stepId);
  const [second] = standingViews
    .filter((view) => view !== best.view)
    .sort((a, b) => shareOn(best.step, b) - shareOn(best.step, a));
  return {
    kind: best.view === 'spread' ? 'steadiness' : 'time',
    steps: [best.step],
    view: best.view,
    ...(others.length > 0 && second ? { level: { with: others, second } } : {}),
  };
}

function onView(standings: readonly Standing[], view: StandingView): Choice | null {
  const standing = standings.find((each) => each.view === view);
  const [first] = standing?.steps ?? [];
  if (!standing || !first) return null;
  if (standing.steps.length > 1) {
    const open = standing.steps.filter(({ notToShorten }) => !notToShorten);
    if (open.length > 1) return { kind: 'level', steps: open, view };
    return { kind: view === 'spread' ? 'steadiness' : 'time', steps: [open[0] ?? first], view };
  }
  if (view !== 'spread') return { kind: 'time', steps: [first], view };
  return { kind: first.notToShorten ? 'kept' : 'steadiness', steps: [first], view };
}

/** The other steps that stand out, each once, on the view where it is most certain. */
function alsoOf(standings: readonly Standing[], chosen: readonly string[]): Suggestion['also'] {
  const best = new Map<string, { view: StandingView; share: number }>();
  for (const { view, steps } of standings)
    for (const step of steps) {
      if (chosen.includes(step.stepId)) continue;
      const share = shareOn(step, view);
      if (share > (best.get(step.stepId)?.share ?? -1)) best.set(step.stepId, { view, share });
    }
  return [...best].map(([stepId, { view }]) => ({ stepId, view }));
}

/** The difference by which a step is ranked: among the same kind of eye where it is split. */
export const rankedOf = ({ difference, differenceSameEyes }: StepAudit): number =>
  differenceSameEyes ?? difference ?? 0;

function mostlyWaiting({ waiting, steps }: Audit): boolean {
  const largest = Math.max(0, ...steps.map(rankedOf));
  return waiting.n >= rulesThresholds.waitingCases && waiting.perCase > largest;
}

const waitingBecause = ({ waiting }: Audit): SuggestionReason[] => [
  { code: 'waiting', waitingReason: waiting.reason, numbers: { perCase: waiting.perCase } },
];

function notEnough({ enough: { cases, moreCases, moreLists } }: Audit): SuggestionReason[] {
  return [{ code: 'not-enough', numbers: { cases, moreCases, moreLists } }];
}

function nothingBecause(audit: Audit, standings: readonly Standing[]): SuggestionReason[] {
  if (standings.length > 0) return [];
  return standingViews.flatMap((view): SuggestionReason[] => {
    const [top] = [...audit.steps].sort((a, b) => shareOn(b, view) - shareOn(a, view));
    if (!top || top.first[view] === null) return [];
    return [{ code: 'first-too-seldom', stepId: top.stepId, view, numbers: { share: shareOn(top, view) } }];
  });
}
