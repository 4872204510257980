import { stepSecondsOf } from '../../audit';
import type { Case, Procedure } from '../../model';
import type { TimingDraft } from '../../recording';
import type { FieldError } from '../forms/fields';
import { timedCase } from './timed-case';

const AGAIN = 'again ';

/** The name under which the second timing of a case is kept on its way; no code of a case, as it holds its id. */
export const againCode = (caseId: string): string => `${AGAIN}${caseId}`;

/** The case of which this is a second timing; `null` where it is a first one. */
export const caseOfAgain = (code: string): string | null =>
  /^again case-[1-9]\d{0,8}$/.test(code) ? code.slice(AGAIN.length) : null;

/** Can this case be timed once more? Timed here, its times not hidden, and not kept as it is. */
export const canBeTimedAgain = (one: Case, hidden: ReadonlySet<string>): boolean =>
  one.source.kind === 'timed' && one.stretches.length > 0 && one.keptAsItIs === null && !hidden.has(one.id);

const MOST_TIMES = 20;

/** The case with its second timing beside the first, which stays as it is; or what keeps it from being stored. */
export function timedAgain(
  draft: TimingDraft,
  one: Case,
  procedure: Procedure,
  now: string,
): { changed: Case; steps: number; errors: FieldError[] } {
  const { code, position, facts, hands } = one;
  const typed = { code, position, facts, hands, list: { kind: 'none' as const }, events: [] };
  const { timed, errors } = timedCase(draft, typed, procedure);
  const again: Case = { ...one, stretches: timed.times.stretches };
  const ids = [...new Set(again.stretches.flatMap(({ stepId, kind }) => (kind === 'step' && stepId ? [stepId] : [])))];
  const stepSeconds = Object.fromEntries(
    ids.flatMap((id) => {
      const seconds = stepSecondsOf(again, id);
      return seconds === null ? [] : [[id, seconds] as const];
    }),
  );
  const before = (one.timedAgain ?? []).slice(1 - MOST_TIMES);
  return {
    changed: { ...one, timedAgain: [...before, { at: now, stepSeconds }] },
    steps: Object.keys(stepSeconds).length,
    errors,
  };
}
