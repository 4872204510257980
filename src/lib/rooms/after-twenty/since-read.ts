import type { Case, Outcome, StoredResult } from '../../model';
import { casesWithIds, hashOfCases } from '../../practice';
import { capital, counted, lessOrMore, listed, rangeOfRatios } from '../../format';
import type { GoalReading } from '../goals/goal-reading';

/** One thing that changed; the codes of its cases stay on the surgeon's own pages. */
export type SinceReason = { words: string; codes: readonly string[] };

export type SinceRead = {
  sentence: string;
  reasons: readonly SinceReason[];
  /** How many of the cases it rests on, by what became of them. */
  counts: readonly { became: string; part: string; cases: number; of: number }[];
};

type Fate = 'taken out' | 'left out' | 'changed';
const FATES: readonly Fate[] = ['taken out', 'left out', 'changed'];
const WORDS: Record<Fate, string> = {
  'taken out': 'taken out of the record',
  'left out': 'left out',
  changed: 'changed',
};
/** A list of edited codes longer than this says no more. */
const CODES_NAMED = 8;

/**
 * What became of the cases a stored result rests on, and what today's data would give; `null` where nothing differs.
 * After twenty and the report both say it from here. An estimate only, never another kind of result: the stored one
 * stays as it was read. Of a first look, while the second is counted, no figure is worked out again.
 */
export function sinceRead(state: GoalReading, stored: StoredResult): SinceRead | null {
  const found = partsOf(state, stored);
  const rests = casesWithIds(state.cases, [...stored.baselineIds, ...stored.windowIds]);
  const gone = found.some(({ fates }) => fates['taken out'].length > 0);
  const changed = gone || hashOfCases(rests) !== stored.inputHash;
  const startNow = hashOfCases(casesWithIds(state.cases, state.goal.baseline.caseIds));
  const startChanged = startNow !== state.goal.baseline.hash;
  const today = stored.look === state.look ? state.outcome : undefined;
  const [then, now] = [judgedOf(stored.outcome), today && judgedOf(today)];
  const moved = then && now ? figureOf(then) !== figureOf(now) : false;
  if (!changed && !moved) return null;
  const counts = found.flatMap(({ part, of, fates }) =>
    FATES.flatMap((became) => (fates[became].length > 0 ? [{ became, part, of, cases: fates[became].length }] : [])),
  );
  return {
    sentence: sentenceOf(today, now ?? null, moved),
    counts,
    reasons: [
      ...(startChanged ? [plain('the baseline cases have changed since the goal was set')] : []),
      ...found.flatMap(({ part, of, fates }) =>
        FATES.flatMap((fate) => (fates[fate].length > 0 ? [reasonOf(part, of, fate, fates[fate])] : [])),
      ),
      // A clock set back leaves no later line in a history, so which cases they are cannot be told.
      ...(changed && counts.length === 0 && !startChanged ? [plain('cases it rests on have changed since')] : []),
      ...(moved && !changed ? [plain('another goal, a list or the way of computing has changed since')] : []),
    ],
  };
}

/** A reason as a sentence; with its codes where the surgeon reads it. */
export const reasonSentence = ({ words, codes }: SinceReason, withCodes: boolean): string =>
  capital(`${words}${withCodes && codes.length > 0 ? `: ${codesWords(codes)}` : ''}.`);

/** All of it in sentences that name no case. */
export const sinceSentences = ({ sentence, reasons }: SinceRead): string[] => [
  sentence,
  ...reasons.map((reason) => reasonSentence(reason, false)),
];

/** An event or an answer added later closes the gate of a stored result again; its numbers stay as they were read. */
export function reopenedBecause({ stored, gate }: Pick<GoalReading, 'stored' | 'gate'>): readonly string[] {
  const latest = stored.at(-1);
  return latest && latest.outcome.kind !== 'paused' && gate && !gate.open ? gate.because : [];
}

type Part = { part: string; of: number; fates: Record<Fate, (string | null)[]> };

/** Each case in one place only: taken out, by itself or with its file, else left out, else changed. One that is gone has no code any more. */
function partsOf({ cases }: GoalReading, { baselineIds, windowIds, storedAt }: StoredResult): Part[] {
  const byId = new Map(cases.map((each) => [each.id, each]));
  const partOf = (part: string, ids: readonly string[]): Part => {
    const fates: Part['fates'] = { 'taken out': [], 'left out': [], changed: [] };
    for (const id of ids) {
      const one = byId.get(id);
      const fate = fateOf(one, storedAt);
      if (fate) fates[fate].push(one?.code ?? null);
    }
    return { part, of: ids.length, fates };
  };
  return [partOf('baseline cases', baselineIds), partOf('cases of the window', windowIds)];
}

function fateOf(one: Case | undefined, storedAt: string): Fate | null {
  if (!one) return 'taken out';
  if (one.leftOut !== null) return 'left out';
  return one.history.some(({ at }) => at > storedAt) ? 'changed' : null;
}

function reasonOf(part: string, of: number, fate: Fate, codes: readonly (string | null)[]): SinceReason {
  const n = codes.length;
  const all = of === 1 ? `the only one of the ${part}` : `${n} of the ${of} ${part}`;
  return {
    words: `${all} ${n === 1 ? 'has' : 'have'} been ${WORDS[fate]} since`,
    codes: codes.flatMap((code) => code ?? []),
  };
}

const plain = (words: string): SinceReason => ({ words, codes: [] });

const codesWords = (codes: readonly string[]): string =>
  codes.length > CODES_NAMED
    ? `${codes.slice(0, CODES_NAMED).join(', ')} and ${counted(codes.length - CODES_NAMED, 'other')}`
    : listed(codes);

function sentenceOf(today: Outcome | null | undefined, now: Judged | null, moved: boolean): string {
  if (today === undefined) return 'This was read, and something it rests on has changed since.';
  if (!now)
    return 'Today the stored figure could not be worked out again: the cases it rests on are no longer all there.';
  return moved
    ? `Today's data would give ${figureOf(now)}. The result above stays as it was read.`
    : "Today's data give the same figure, although something it rests on has changed.";
}

type Judged = { estimate: number; low: number; high: number };

const judgedOf = (outcome: Outcome): Judged | null =>
  outcome.measure === 'steadiness' ? outcome.spread : (outcome.against ?? outcome.plain);

const figureOf = ({ estimate, low, high }: Judged) =>
  `${lessOrMore(Math.exp(estimate))} (${rangeOfRatios(Math.exp(low), Math.exp(high))})`;
