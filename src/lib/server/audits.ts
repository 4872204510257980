import { createHash } from 'node:crypto';
import { hiddenCaseIds } from '../rooms/goals/hidden-times';
import type { SurgeonRecord, Case, Procedure } from '../model';
import { type Audit, type AuditInput, auditInSlices, countedCases, latestShown } from '../audit';
import { auditThresholds } from '../audit/thresholds';
import { othersMeanwhile } from './in-turns';
import { keptAnswers } from './kept-answers';

/** Resamples start from here unless a caller asks otherwise: the same record then shows the same numbers on every screen. */
export const AUDIT_SEED = 1;

/** A surgeon looks at one record, perhaps with and without a reference set: more would only hold memory. */
const MOST = 6;

const kept = keptAnswers<Audit>(MOST);

/**
 * The audit of a record, computed in slices of well under 50 ms and kept under a hash of everything it rests on.
 * Any change of a case that counts, its list, the procedure or a reference set is another key.
 */
export function auditFor(input: AuditInput): Promise<Audit> {
  return kept(keyOf(input), () => auditInSlices(input, othersMeanwhile));
}

function keyOf({ cases, lists, procedure, references, seed, resamples, shown }: AuditInput): string {
  // No case older than those a trend is sought in enters any number.
  const latest = latestShown(countedCases(cases, procedure), Math.max(shown ?? 100, auditThresholds.trendCases));
  const on = new Set(latest.map(({ listId }) => listId));
  const hash = createHash('sha256').update(JSON.stringify([seed, resamples, shown, procedure, references]));
  for (const list of lists) if (on.has(list.id)) hash.update(JSON.stringify(list));
  for (const each of latest) hash.update(textOf(each));
  return hash.digest('hex');
}

// The store hands out the same frozen object until a case changes, so its text need be made only once.
const texts = new WeakMap<Case, string>();

function textOf(each: Case): string {
  const known = texts.get(each);
  if (known !== undefined) return known;
  const text = JSON.stringify(each);
  if (Object.isFrozen(each)) texts.set(each, text);
  return text;
}

/**
 * The audit a surgeon may look at: without the cases of a running window, whose times are kept from view.
 * `heldBack`: how many cases of this procedure that leaves out.
 */
export async function shownAudit(
  record: SurgeonRecord,
  procedure: Procedure,
): Promise<{ audit: Audit; heldBack: number; cases: readonly Case[] }> {
  const hidden = hiddenCaseIds(record);
  const own = record.cases.filter((each) => each.procedureId === procedure.id);
  const cases = own.filter((each) => !hidden.has(each.id));
  const audit = await auditFor({
    cases,
    lists: record.lists,
    procedure,
    references: record.references.filter((each) => each.procedureId === procedure.id),
    seed: AUDIT_SEED,
  });
  return { audit, heldBack: own.length - cases.length, cases };
}
