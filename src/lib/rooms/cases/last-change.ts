import { z } from 'zod';
import { caseSchema, same, type Case, type SurgeonRecord } from '../../model';
import { markSeen, timesInSeconds } from './case-change';
import { AS_USUAL } from '../forms/eye-fields';
import { leaveOutRefusedWords } from '../../words/may-not';
import { isLeftOutReason, leaveOutRefused } from './leave-out-rules';

/** The cases of the change made last, as they stood before it, with the version each has had since. */
export const lastChangeSchema = z.strictObject({
  cases: z.array(z.strictObject({ version: z.number().int().positive(), before: caseSchema })).min(1),
});
export type LastChange = z.infer<typeof lastChangeSchema>;

export type Undo =
  /**
   * `of`: which change this is, so that a page opened before another change cannot undo that one unseen.
   * `what`: the line of history that would be undone, of one case or of several.
   */
  | { kind: 'offered'; of: string; cases: number; what: string; back: readonly { case: Case; what: string }[] }
  | { kind: 'refused'; because: string };

type Pair = { before: Case; after: Case };

/**
 * What undoing the change made last would do; `null` where these cases are not those of it, or have changed since.
 * Undone is a change like any other: with its line of history, and to be undone in its turn.
 *
 * @param seen whether the times of a case have been seen: a fact that is put back is then marked like any late change,
 * and the mark of the change that is undone stays
 */
export function undoOf(
  last: LastChange | null,
  record: SurgeonRecord,
  seen: (one: Case) => boolean,
  now: string,
): Undo | null {
  const byId = new Map(record.cases.map((one) => [one.id, one]));
  const pairs = (last?.cases ?? []).flatMap(({ version, before }) => {
    const after = byId.get(before.id);
    return after?.version === version ? [{ before, after }] : [];
  });
  const [first] = pairs;
  if (!last || !first || pairs.length < last.cases.length) return null;
  for (const pair of pairs) {
    const because = undoRefused(pair, record, seen(pair.after));
    if (because) return { kind: 'refused', because };
  }
  return {
    kind: 'offered',
    of: `${first.after.id}.${first.after.version}`,
    cases: pairs.length,
    what: whatOf(first.after),
    back: pairs.map((pair) => takenBack(pair, seen(pair.after), now)),
  };
}

/** Why one case may not go back; the rules are those of the change it would be if it were made by hand. */
function undoRefused({ before, after }: Pair, record: SurgeonRecord, seen: boolean): string | null {
  if (after.keptAsItIs !== null) return `Case ${after.code} is kept as it is, so nothing in it is undone.`;
  if (timesDiffer({ before, after }) && after.stretches.length > 0 && !seen)
    return `The times of case ${after.code} are hidden while its window runs, so a change of them cannot be undone yet.`;
  if (before.leftOut === null || after.leftOut !== null || !isLeftOutReason(before.leftOut.reason)) return null;
  const refused = leaveOutRefused(after, before.leftOut.reason, record);
  return refused && leaveOutRefusedWords(refused);
}

const timesDiffer = ({ before, after }: Pair) => !same(before.stretches, after.stretches);
const whatOf = (one: Case) => one.history.at(-1)?.what ?? 'Changed';

const LATE = ' (after its times were seen)';

function takenBack(pair: Pair, seen: boolean, now: string): { case: Case; what: string } {
  const { before, after } = pair;
  const late = seen ? lateMarks(pair, now) : [];
  // While it was left out nothing about it was hidden: leaving it out again is no longer the choice of somebody who has
  // not looked.
  const leftOut =
    before.leftOut !== null && after.leftOut === null
      ? { ...before.leftOut, timesSeen: before.leftOut.timesSeen || after.stretches.length > 0, at: now }
      : before.leftOut;
  const said = whatOf(after);
  // Without what the line said besides: the times put back stand in the line above, those undone are listed anew.
  const plain = said
    .replace(/^(Undone|Done again): /, '')
    .replace(/ \(taken back: .*\)$/s, '')
    .replace(/^(Times changed); before, in seconds: .*$/s, '$1');
  const lost = lostBy(pair);
  const what = [
    said.startsWith('Undone: ') ? 'Done again: ' : 'Undone: ',
    plain,
    ...(late.length > 0 && !plain.includes(LATE) ? [LATE] : []),
    ...(lost.length > 0 ? [` (taken back: ${lost.join('; ')})`] : []),
  ].join('');
  return {
    case: {
      ...before,
      ...markSeen(after),
      leftOut,
      factChanges: [...after.factChanges, ...late],
      version: after.version,
    },
    what,
  };
}

/** What is in no line of the history yet and would be lost: times, and what was written in a review. */
function lostBy(pair: Pair): string[] {
  const written = new Set(pair.before.events?.map(({ reviewed }) => reviewed?.text));
  const reviews = (pair.after.events ?? []).flatMap(({ reviewed }) =>
    reviewed?.text && !written.has(reviewed.text) ? [`the review "${reviewed.text}"`] : [],
  );
  return [...(timesDiffer(pair) ? [`times, in seconds: ${timesInSeconds(pair.after)}`] : []), ...reviews];
}

function lateMarks({ before, after }: Pair, at: string): Case['factChanges'] {
  return [...new Set([...Object.keys(before.facts), ...Object.keys(after.facts)])]
    .filter((id) => id !== AS_USUAL && before.facts[id] !== after.facts[id])
    .map((factId) => ({ factId, before: after.facts[factId] ?? null, after: before.facts[factId] ?? null, at }));
}
