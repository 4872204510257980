import { pairOf, type PairCase } from '../../audit/pair';
import type { Case, ListRecord, Procedure } from '../../model';
import { clock, listed } from '../../format';

/** `time`: as recorded. No case of a running window is ever one of the two. */
export type PairCaseView = { title: string; code: string; href: string; time: string; where: string; because: string };
export type PairView =
  | { kind: 'pair'; cases: readonly PairCaseView[]; eyes: string; said: readonly string[] }
  | { kind: 'none'; because: string };

/** Two recordings worth seeing again, by case code and stretch, and their marks on the run of cases. */
export function pairView(
  cases: readonly Case[],
  lists: readonly ListRecord[],
  procedure: Procedure,
  stepId: string,
  within: { factId: string; levels: readonly string[]; label: string } | null = null,
): { view: PairView; marked: Readonly<Record<string, string>> } {
  const pair = pairOf({ cases, lists, procedure, stepId, within });
  if (pair.kind === 'cannot') return { view: { kind: 'none', because: pair.because }, marked: {} };
  const alike = pair.same.length > 0 ? `The same kind of eye: ${listed(pair.same)}.` : '';
  const differ = pair.different.length > 0 ? `The eyes differ: ${listed(pair.different)}.` : '';
  return {
    view: {
      kind: 'pair',
      cases: [
        caseView(pair.shorter.uneventful ? 'Shorter, uneventful' : 'Shorter', pair.shorter),
        caseView('Longer', pair.longer),
      ],
      eyes: [within ? `Both are eyes in which this step takes you longer (${within.label}).` : '', alike, differ]
        .filter(Boolean)
        .join(' '),
      said: pair.said,
    },
    marked: { [pair.shorter.caseId]: 'shorter', [pair.longer.caseId]: 'longer' },
  };
}

function caseView(title: string, { caseId, code, seconds, stretches, because, hasRecording }: PairCase): PairCaseView {
  const where =
    stretches.length === 0
      ? 'only its length is known, not where it stands in the recording'
      : stretches.map(({ start, end }) => `${clock(start)} to ${clock(end)}`).join(', then ');
  return {
    title,
    code,
    href: `/cases/${caseId}`,
    time: `${clock(seconds)} as recorded`,
    where: stretches.length > 0 ? `from ${where}${hasRecording ? '' : ' (no recording is tied to this case)'}` : where,
    because: listed(because),
  };
}
