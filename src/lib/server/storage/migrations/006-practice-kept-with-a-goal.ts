import type { Migration } from './migration';

/**
 * Goals may carry `drillLog` (drills that reached their pass mark) and `mentorReviews` (what learner and mentor wrote,
 * apart). Before, neither was kept, and nothing is made up: a goal stays as it is until one of them is stored. The number
 * rises so that an older program, which would take the fields for damage, refuses the file untouched.
 */
export const practiceKeptWithAGoal: Migration = { to: 6, documents: {} };
