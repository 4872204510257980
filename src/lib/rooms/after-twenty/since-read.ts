import type { Case, Outcome, StoredResult } from '../../model';
import { casesWithIds, hashOfCases } from '../../practice';
import { pauseWords, sinceFigure, type Fate, type FateReason, type SinceRead, type SinceToday } from '../../words';
import type { GoalReading } from '../goals/goal-reading';

const FATES: readonly Fate[] = ['taken-out', 'left-out', 'changed'];

/**
 * What became of the cases a stored result rests on, and what today's data would give; `null` where nothing differs.
 * After twenty and the report both take it from here. An estimate only, never another kind of result: the stored one
 * stays as it was read. Of a first look, while the second is counted, no figure is worked out again.
 */
export function sinceRead(state: GoalReading, stored: StoredResult): SinceRead | null {
  const fates = [
    ...fatesOf(state, stored, 'baseline', stored.baselineIds),
    ...fatesOf(state, stored, 'window', stored.windowIds),
  ];
  const rests = casesWithIds(state.cases, [...stored.baselineIds, ...stored.windowIds]);
  const gone = fates.some(({ fate }) => fate === 'taken-out');
  const changed = gone || hashOfCases(rests) !== stored.inputHash;
  const startNow = hashOfCases(casesWithIds(state.cases, state.goal.baseline.caseIds));
  const startChanged = startNow !== state.goal.baseline.hash;
  const today = stored.look === state.look ? state.outcome : undefined;
  const [then, now] = [judgedOf(stored.outcome), today && judgedOf(today)];
  const moved = then && now ? sinceFigure(then) !== sinceFigure(now) : false;
  if (!changed && !moved) return null;
  return {
    today: todayOf(today, now ?? null, moved),
    reasons: [
      ...(startChanged ? [{ code: 'baseline-changed' } as const] : []),
      ...fates,
      ...(changed && fates.length === 0 && !startChanged ? [{ code: 'cases-changed' } as const] : []),
      ...(moved && !changed ? [{ code: 'computed-otherwise' } as const] : []),
    ],
  };
}

/** The same, counted: how many of the cases it rests on, by what became of them. */
export const fatesIn = (since: SinceRead | null): FateReason[] =>
  (since?.reasons ?? []).flatMap((reason) => (reason.code === 'fate' ? [reason] : []));

/** An event or an answer added later closes the gate of a stored result again; its numbers stay as they were read. */
export function reopenedBecause({ stored, gate }: Pick<GoalReading, 'stored' | 'gate'>): readonly string[] {
  const latest = stored.at(-1);
  return latest && latest.outcome.kind !== 'paused' && gate && !gate.open ? gate.reasons.map(pauseWords) : [];
}

/**
 * Each case in one group only: taken out (by itself or with its file), else left out, else changed. One that is gone no
 * longer has a code.
 */
function fatesOf(
  { cases }: GoalReading,
  { storedAt }: StoredResult,
  part: FateReason['part'],
  ids: readonly string[],
): FateReason[] {
  const byId = new Map(cases.map((each) => [each.id, each]));
  const all = ids.map((id) => byId.get(id));
  return FATES.flatMap((fate): FateReason[] => {
    const met = all.filter((one) => fateOf(one, storedAt) === fate);
    if (met.length === 0) return [];
    const codes = met.flatMap((one) => one?.code ?? []);
    return [{ code: 'fate', part, fate, numbers: { cases: met.length, of: ids.length }, codes }];
  });
}

function fateOf(one: Case | undefined, storedAt: string): Fate | null {
  if (!one) return 'taken-out';
  if (one.leftOut !== null) return 'left-out';
  return one.history.some(({ at }) => at > storedAt) ? 'changed' : null;
}

function todayOf(today: Outcome | null | undefined, now: Judged | null, moved: boolean): SinceToday {
  if (today === undefined) return { code: 'not-worked-out' };
  if (!now) return { code: 'cannot' };
  const { estimate, low, high } = now;
  return moved ? { code: 'moved', numbers: { estimate, low, high } } : { code: 'same' };
}

type Judged = { estimate: number; low: number; high: number };

const judgedOf = (outcome: Outcome): Judged | null =>
  outcome.measure === 'steadiness' ? outcome.spread : (outcome.against ?? outcome.plain);
