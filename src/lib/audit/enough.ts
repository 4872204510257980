import { auditThresholds } from './thresholds';
import { knownLists } from './known-lists';
import type { Enough, StepTable } from './types';

/** Does the record go far enough for a suggestion: 20 cases over 4 lists, or 30 cases where lists are not known? */
export function enoughOf({ cases, listsFrom }: Pick<StepTable, 'cases' | 'listsFrom'>): Enough {
  const { enoughCases, enoughLists, enoughUnlisted } = auditThresholds;
  // With no cases at all, nothing can be said about lists.
  const known = listsFrom !== 'blocks' || cases.length === 0;
  const lists = knownLists(cases);
  const moreCases = Math.max(0, (known ? enoughCases : enoughUnlisted) - cases.length);
  const moreLists = known ? Math.max(0, enoughLists - lists) : 0;
  return {
    enough: moreCases === 0 && moreLists === 0,
    cases: cases.length,
    lists: known ? lists : null,
    moreCases,
    moreLists,
  };
}
