import type { Audit } from '../audit/types';
import { certainEyesOf, type CertainEyes } from './certain-eyes';

/** The eyes from which the pair of a step is taken: those in which it takes longer, if any. One rule for every page that names the pair. */
export const pairEyesOf = (audit: Audit, stepId: string): CertainEyes | null =>
  certainEyesOf({ ...audit, patterns: audit.patterns.filter((each) => each.stepId === stepId) });
