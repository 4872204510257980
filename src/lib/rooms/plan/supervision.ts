import { inOrder } from '../../audit';
import type { Case, Profile } from '../../model';

/** How far back another surgeon's part in a case still means supervision. */
const LATEST = 50;

/**
 * Is agreement with a supervisor asked for? In training, or where someone else did part of one of the latest fifty
 * cases. `null`: not asked; else why it is.
 */
export function supervisorAsked(cases: readonly Case[], profile: Pick<Profile, 'inTraining'>): string | null {
  if (profile.inTraining) return 'You are in training.';
  const shared = inOrder(cases)
    .slice(-LATEST)
    .filter(({ hands }) => hands.whole !== 'mine' || Object.values(hands.steps).some((each) => each !== 'mine')).length;
  if (shared === 0) return null;
  return `In ${shared} of your latest ${Math.min(LATEST, cases.length)} cases someone else did part of the operation.`;
}
