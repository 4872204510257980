import type { EyeFact, Procedure } from '../model';

/** What a record can show of a step: the patterns of the rules. */
export const PATTERN_FITS = [
  'longer',
  'varies',
  'returned-to',
  'hard-eyes',
  'late-in-list',
  'first-on-list',
  'after-a-break',
  'after-earlier',
  'waiting',
  'over-time',
  'bimodality',
  'protected-parts',
] as const;

export type PatternFit = (typeof PATTERN_FITS)[number];

/** A fact of the eye at one of its levels (`eye:pupil:small`), or a fact that is yes or no (`eye:toric`). */
export type EyeFit = `eye:${string}`;

/**
 * What a checkpoint or a drill answers: a pattern, a kind of eye, a kind of event (`event:wound-burn`), or a protected
 * part of its own step (`part:lens-identity`). The prefix keeps the three lists of ids of a procedure apart.
 */
export type Fit = PatternFit | EyeFit | `event:${string}` | `part:${string}`;

const SHAPE = /^(?:eye:[a-z0-9-]+(?::[a-z0-9-]+)?|event:[a-z0-9-]+|part:[a-z0-9-]+)$/;

/** A pattern by its name, or something that has the form of a fact, an event or a part. */
export const isFit = (text: string): text is Fit => SHAPE.test(text) || PATTERN_FITS.some((fit) => fit === text);

/**
 * What is wrong with a `Fit` on a page of this procedure and step, in words; `null` when everything it names exists.
 */
export function fitProblem(fit: Fit, procedure: Procedure, stepId: string): string | null {
  const [kind, id = '', level] = fit.split(':');
  if (kind === 'event')
    return procedure.eventKinds.some((each) => each.id === id) ? null : `no event "${id}" in ${procedure.id}`;
  if (kind === 'part') {
    const step = procedure.steps.find((each) => each.id === stepId);
    return step?.protectedParts.some((part) => part.id === id) ? null : `no protected part "${id}" in ${stepId}`;
  }
  if (kind !== 'eye') return null;
  const fact = procedure.facts.find((each) => each.id === id);
  return fact ? levelProblem(fact, level) : `no fact "${id}" in ${procedure.id}`;
}

/** The kinds of eye a pattern of the audit is about: its factor is `fact=level` or `fact=level+level`, a yes `fact=true`. */
export function eyeFitsOf(factor: string): EyeFit[] {
  const [id = '', levels = ''] = factor.split('=');
  return levels.split('+').flatMap((level): EyeFit[] => {
    if (level === 'true') return [`eye:${id}`, `eye:${id}:yes`];
    return [`eye:${id}:${level === 'false' ? 'no' : level}`];
  });
}

/** A choice needs its level; a yes or no without levels has none; a number cannot be named at all. */
function levelProblem({ id, kind, levels = [] }: EyeFact, level: string | undefined): string | null {
  if (kind === 'number') return `the fact "${id}" is a number and has no level to name`;
  if (levels.length === 0) return level === undefined ? null : `the fact "${id}" is yes or no and has no level`;
  if (level === undefined) return `the fact "${id}" needs one of its levels`;
  return levels.some((each) => each.id === level) ? null : `no level "${level}" of the fact "${id}"`;
}
