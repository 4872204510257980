import { timesSeenWhileLeftOut } from './002-times-seen-while-left-out';
import { countWhatIsErased } from './003-count-what-is-erased';
import { theTradesWords } from './004-the-trades-words';
import { knownOnlyWhereAsked } from './005-known-only-where-asked';
import { practiceKeptWithAGoal } from './006-practice-kept-with-a-goal';
import { lastedAsItWasRead } from './007-lasted-as-it-was-read';
import { theDayOfAgreement } from './008-the-day-of-agreement';
import { saidToBeNobody } from './009-said-to-be-nobody';
import { sideAndRemark } from './010-side-and-remark';
import { reasonsAsData } from './011-reasons-as-data';
import type { Migration } from './migration';

/** The shape in which this version writes. Rises by one with every migration. */
export const schemaVersion = 11;

/**
 * All migrations, in order, each in a file of its own (`002-<what-changed>.ts`) with a test that loads a file of the old shape.
 * A migration is never edited once released: files of any earlier version may still lie in somebody's folder.
 * Version 1 is the first shape there was.
 */
export const migrations: readonly Migration[] = [
  timesSeenWhileLeftOut,
  countWhatIsErased,
  theTradesWords,
  knownOnlyWhereAsked,
  practiceKeptWithAGoal,
  lastedAsItWasRead,
  theDayOfAgreement,
  saidToBeNobody,
  sideAndRemark,
  reasonsAsData,
];
