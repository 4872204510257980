import type { ResultKind } from '../model';

/** The bold first words of a result. */
export const RESULT_HEAD: Record<ResultKind, string> = {
  paused: 'Paused for safety review',
  shorter: 'Shorter, beyond the rest of the operation',
  'all-round': 'Shorter all round',
  'rest-longer': 'Kept while the rest took longer',
  steadier: 'Steadier',
  longer: 'Longer',
  'little-change': 'Little change',
  'cannot-tell': 'No clear change',
};

/** What each does not say. */
export const DOES_NOT_SAY: Record<ResultKind, string> = {
  paused: 'that the goal caused it.',
  shorter: 'that the checkpoints did it, or that the operation is safer.',
  'all-round': 'that this step changed more than the others.',
  'rest-longer': 'that this step changed.',
  steadier: 'that steadier is safer, or why.',
  longer: 'that anything is wrong. Go back to two of these cases before you decide.',
  'little-change': 'that the checkpoints are useless, or that nothing was learned.',
  'cannot-tell': 'that the checkpoints are useless. What you did stands above, in your own account.',
};
