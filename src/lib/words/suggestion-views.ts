import type { Audit } from '../audit';
import { capital, inSentence, listed, ofHundred } from '../format';
import type { StandingView, Suggestion } from '../rules';

const VIEW_NAME: Record<StandingView, string> = {
  seconds: 'most seconds',
  spread: 'what varies most',
  reference: 'the view against the reference set',
};

const VIEW_SAYS: Record<StandingView, string> = {
  seconds: 'holds the most seconds',
  spread: 'varies most',
  reference: 'differs most from the reference set',
};

/**
 * The step the title of the Choose drawing names: first on this view as the record stands. Only steps that are ranked
 * on it count: an optional or very short step may vary more, and is not worth a look for that.
 */
export function firstOn(audit: Pick<Audit, 'steps'>, view: StandingView): Audit['steps'][number] | null {
  const score = (step: Audit['steps'][number]): number =>
    (view === 'seconds'
      ? (step.differenceSameEyes ?? step.difference)
      : view === 'spread'
        ? step.spread
        : step.reference?.ratio) ?? -Infinity;
  const ranked = audit.steps.filter((step) => step.first[view] !== null && score(step) > -Infinity);
  return ranked.reduce<Audit['steps'][number] | null>(
    (first, step) => (first === null || score(step) > score(first) ? step : first),
    null,
  );
}

/** The title of the Choose drawing for a view: it says the answer. */
export function viewTitle(audit: Pick<Audit, 'steps'>, view: StandingView): string {
  const first = firstOn(audit, view);
  if (!first) return 'Your steps, in the order of the operation.';
  return `${capital(inSentence(first.label))} ${VIEW_SAYS[view]}.`;
}

/** One of several that cannot be told apart on a view, taken because it comes first on a second one as well. */
export function levelWords(
  audit: Audit,
  step: Audit['steps'][number],
  view: StandingView,
  level: NonNullable<Suggestion['level']>,
  label: (id: string) => string,
): string {
  const share = (id: string) => audit.steps.find((each) => each.stepId === id)?.first[view] ?? 0;
  const shares = [step.stepId, ...level.with].map((id) => String(ofHundred(share(id))));
  return `On ${VIEW_NAME[view]} it cannot be told apart from ${listed(level.with.map(label))} (first in ${listed(shares)} of 100 resamples of your record); on ${VIEW_NAME[level.second]} it came first in ${ofHundred(step.first[level.second] ?? 0)}.`;
}

/** "nucleus removal, which holds the most seconds"; steps that cannot be told apart on one view are named together. */
export function alsoWords(audit: Audit, { also, level, view: on }: Suggestion, label: (id: string) => string): string {
  const views = [...new Set(also.map(({ view }) => view))];
  return views
    .map((view) => {
      const ids = also.filter((each) => each.view === view).map(({ stepId }) => stepId);
      const steps = ids.map(label);
      if (level && view === on) return `${listed(steps)}, which cannot be told apart from it on ${VIEW_NAME[view]}`;
      return steps.length === 1 && firstOn(audit, view)?.stepId === ids[0]
        ? `${steps[0]}, which ${VIEW_SAYS[view]}`
        : `${listed(steps)}, which cannot be told apart on ${VIEW_NAME[view]}`;
    })
    .join('; ');
}
