import { pairOf, stepSecondsOf, type PairCase } from '../../audit';
import type { Case, ListRecord, Procedure } from '../../model';
import { clock, inSentence, listed } from '../../format';
import { pairCannotWords, pairCaveatWords, pairReasonsWords } from '../../words/pair';
import { caseSummary, type CaseSummary } from '../cases/case-summary';
import { stepInitials } from '../cases/step-initials';

/** `time`: as recorded. No case of a running window is ever one of the two. */
export type PairCaseView = {
  title: string;
  code: string;
  href: string;
  time: string;
  where: string;
  because: string;
  /** How the operation was made up. */
  ink: CaseSummary;
};
export type PairView =
  | {
      kind: 'pair';
      cases: readonly PairCaseView[];
      eyes: string;
      said: readonly string[];
      /** What the two small drawings show. */
      inkSaid: string;
      /** The steps before this one and this one itself, in both cases. */
      before: { caption: string; columns: { label: string; number?: boolean }[]; rows: string[][] };
    }
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
  if (pair.kind === 'cannot') return { view: { kind: 'none', because: pairCannotWords(pair.why) }, marked: {} };
  const alike = pair.same.length > 0 ? `The same kind of eye: ${listed(pair.same)}.` : '';
  const differ = pair.different.length > 0 ? `The eyes differ: ${listed(pair.different)}.` : '';
  const both = [pair.shorter, pair.longer];
  const records = both.flatMap(({ caseId }) => cases.find(({ id }) => id === caseId) ?? []);
  const titles = [pair.shorter.uneventful ? 'Shorter, uneventful' : 'Shorter', 'Longer'];
  return {
    view: {
      kind: 'pair',
      cases: both.flatMap((each, at) => {
        const one = cases.find(({ id }) => id === each.caseId);
        return one ? [{ ...caseView(titles[at] ?? '', each), ink: caseSummary(one, procedure) }] : [];
      }),
      inkSaid: `Each operation in proportion, its steps by their first letters; ${stepInitials(procedure)[stepId] ?? ''} is this one.`,
      before: beforeOf(records, procedure, stepId),
      eyes: [within ? `Both are eyes in which this step takes you longer (${within.label}).` : '', alike, differ]
        .filter(Boolean)
        .join(' '),
      said: pair.caveats.map(pairCaveatWords),
    },
    marked: { [pair.shorter.caseId]: 'shorter', [pair.longer.caseId]: 'longer' },
  };
}

function beforeOf(both: readonly Case[], { steps }: Procedure, stepId: string) {
  const upTo = steps.slice(0, steps.findIndex(({ id }) => id === stepId) + 1);
  const last = upTo.at(-1)?.label ?? '';
  return {
    caption: `The steps up to ${inSentence(last)} in both, as recorded`,
    columns: [{ label: 'Step' }, ...both.map(({ code }) => ({ label: code, number: true }))],
    rows: upTo.flatMap(({ id, label }) => {
      const times = both.map((one) => stepSecondsOf(one, id));
      return times.some((time) => time !== null)
        ? [[label, ...times.map((time) => (time === null ? 'not known' : clock(time)))]]
        : [];
    }),
  };
}

/** Where a step stands in its recording: whole seconds wherever it is said. Empty where no stretch is known. */
export const whereWords = (stretches: PairCase['stretches']): string =>
  stretches.map(({ start, end }) => `${clock(start)} to ${clock(end)}`).join(', then ');

function caseView(
  title: string,
  { caseId, code, seconds, stretches, why, hasRecording }: PairCase,
): Omit<PairCaseView, 'ink'> {
  const where =
    stretches.length === 0 ? 'only its length is known, not where it stands in the recording' : whereWords(stretches);
  return {
    title,
    code,
    href: `/cases/${caseId}`,
    time: `${clock(seconds)} as recorded`,
    where: stretches.length > 0 ? `from ${where}${hasRecording ? '' : ' (no recording is tied to this case)'}` : where,
    because: pairReasonsWords(why),
  };
}
