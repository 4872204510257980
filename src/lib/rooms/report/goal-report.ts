import type { Goal, Lasting, Outcome, StoredResult } from '../../model';
import { casesWithIds, type ChartSeries, type ShortTimes } from '../../practice';
import { monthsOfCases } from './period-of';
import { capital, counted, inSentence } from '../../format';
import { shortTimesWords, sinceSentences, type SinceRead } from '../../words';
import { reportedResult } from '../../words/reported-result';
import { doneRows } from '../after-twenty/done-cells';
import { lastingToRead } from '../goals/goal-standing';
import { agreementData, agreementLines, agreementOf } from '../mentor/agreement';
import { recordedOf, shortTimesState, type GoalReading } from '../goals/goal-reading';
import { lastedWords } from '../after-twenty/lasted-words';
import { fatesIn, reopenedBecause, sinceRead } from '../after-twenty/since-read';
import { goalSafety, inOne, monthOf, sinceFigures, ticked } from './parts';
import { goalRun } from './goal-run';
import { FOOTNOTES, type ReportRecord, type ReportView } from './report';

const CHOSEN: Record<Goal['chosenBy'], string> = {
  seconds: 'Chosen on the view of most seconds: between median and 20th percentile.',
  spread: 'Chosen on the view of what varies most.',
  reference: 'Chosen on the view against a reference set of other surgeons, without names.',
  eyes: 'Chosen because it takes longer in certain eyes than the same eyes do at other steps.',
  safety: 'A safety goal: no time is measured.',
  own: 'Chosen for a reason from outside the record, given before the times were looked at.',
};

/**
 * The report on one goal: what was chosen and why, what was done, the result with its run of cases, safety, reflections.
 * @param series the windows that may be seen; `null`: nothing is drawn
 */
export function goalReport(
  state: GoalReading,
  record: ReportRecord,
  noteIds: readonly string[],
  lasting: readonly Lasting[],
  series: ChartSeries | null = null,
): ReportView {
  const { goal, procedure, step, stored, window, windowCases } = state;
  const result = stored[stored.length - 1] ?? null;
  const since = result && sinceRead(state, result);
  const safety = goalSafety(state, record);
  const mine = record.reflections.filter((each) => each.goalId === goal.id);
  const shown = shownOf(state);
  return {
    head: headOf(state, shown),
    title: `${capital(step.label)}: one practice goal`,
    period: periodOf(state, record),
    sections: [
      {
        heading: 'What was chosen, and why',
        lines: [
          `${CHOSEN[goal.chosenBy]}${goal.reason ? ` ${goal.reason}` : ''}`,
          `${counted(goal.baseline.caseIds.length, 'baseline case')}, fixed on the day the goal was set; measure: ${goal.measure}.`,
          ...agreedLine(goal),
        ],
      },
      {
        heading: 'What was done',
        lines: [
          ...doneRows(goal, windowCases, record.reflections, procedure).map(({ label, words }) =>
            words ? `${label} (${words})` : label,
          ),
          "By the surgeon's own account, after review.",
        ],
      },
      ...mentorSection(goal),
      {
        heading: 'Result',
        ...resultSection(state, since, lasting, shortTimesState(record, state)),
        ...goalRun(state, series, shown),
      },
      safety.section,
      ...(window.leftOut.ids.length > 0
        ? [
            {
              heading: 'Left out',
              lines: [`Before times were seen: ${window.leftOut.before}. After: ${window.leftOut.after}.`],
            },
          ]
        : []),
    ],
    notes: ticked(mine, noteIds),
    footnotes: FOOTNOTES,
    cautions: record.cautions,
    figures: [...figuresOf(result), ...sinceFigures(fatesIn(since), null), ...safety.figures],
    agreement: agreementData(goal),
  };
}

function mentorSection(goal: Goal): ReportView['sections'] {
  const lines = agreementLines(agreementOf(goal, 'Surgeon'));
  return lines.length > 0 ? [{ heading: 'Seen by two', lines }] : [];
}

/**
 * The months of the cases the report is about, beside those in which it was set and read: baseline, window, and once read the
 * following twenties that are complete and in sight; a twenty that still fills is in no line of it.
 */
function periodOf({ goal, stored, cases, windowCases, following }: GoalReading, { lists }: ReportRecord): string {
  const followed = stored.length > 0 ? following.inSight.slice(1).flat() : [];
  const ids = [...goal.baseline.caseIds, ...windowCases.map(({ id }) => id), ...followed];
  const months = monthsOfCases(casesWithIds(cases, ids), lists);
  const read = stored.at(-1);
  const set = `set in ${monthOf(goal.setAt)}, ${read ? `read in ${monthOf(read.storedAt)}` : 'under way'}`;
  return months ? `Cases of ${months}; ${set}` : capital(set);
}

/** Nothing where it was not asked: no answer is not "no supervisor". */
function agreedLine({ agreed }: GoalReading['goal']): string[] {
  if (agreed.answer === 'none' && agreed.why === null) return [];
  return [`Agreed with the supervisor: ${{ yes: 'yes', 'not-yet': 'not yet', none: 'no supervisor' }[agreed.answer]}.`];
}

function resultSection(
  state: GoalReading,
  since: SinceRead | null,
  lasting: readonly Lasting[],
  found: ShortTimes | null,
): { strong: string; lines: string[] } {
  const { goal, step, stored, look, window } = state;
  const decided = goal.decisions.map(
    ({ at, kind, reason }) => `Decided in ${monthOf(at)}: ${kind.replace('-', ' ')}${reason ? `. ${reason}` : ''}`,
  );
  const result = stored.at(-1);
  const shown = shownOf(state);
  if (!shown) return { strong: noResultWords(window), lines: decided };
  const words = reportedResult(shown, step.label);
  const reopened = reopenedBecause(state);
  return {
    strong: words.head,
    lines: [
      ...(reopened.length > 0 ? [`Since this result was read: ${reopened.join(' ')}`] : []),
      ...inOne([...words.sentences, ...words.beside, ...(found ? [shortTimesWords(found)] : [])]),
      ...inOne(result ? recordedOf(state) : []),
      ...(words.doesNotSay ? [`Does not say ${words.doesNotSay}`] : []),
      ...(result && result.look !== look
        ? ['This is the first look, at twenty; the second, at forty, is not complete yet.']
        : []),
      ...inOne(since ? sinceSentences(since) : []),
      ...(result
        ? lastedWords(result, lasting, step.label, (at) => `in ${monthOf(at)}`).map(
            (said) => `${said.head}. ${said.sentence}`,
          )
        : []),
      ...(lastingToRead(state) > 0 ? ['A following twenty is complete; whether it lasted has not been read yet.'] : []),
      ...decided,
    ],
  };
}

/** The outcome as it was stored, or as it stands where only a review is missing. */
const shownOf = ({ stored, waitsForReview, outcome }: GoalReading): Outcome | null =>
  stored.at(-1)?.outcome ?? (waitsForReview ? outcome : null);

const headOf = ({ step, window }: GoalReading, shown: Outcome | null): string => {
  const said = shown
    ? inSentence(reportedResult(shown, step.label).head)
    : window.full
      ? 'the result has not been read yet.'
      : 'no result yet.';
  return `${capital(step.label)}: ${said}`;
};

function noResultWords({ full, need }: GoalReading['window']): string {
  const cases = need.cases === 40 ? 'forty' : 'twenty';
  return full
    ? `The next ${cases} are complete; the result has not been read yet.`
    : `No result yet: the ${cases} are not complete.`;
}

function figuresOf(result: StoredResult | null): ReportView['figures'] {
  if (!result) return [];
  const ratio = (name: string, effect: StoredResult['outcome']['plain']) =>
    effect
      ? [
          {
            name,
            value: Math.exp(effect.estimate),
            low: Math.exp(effect.low),
            high: Math.exp(effect.high),
            n: effect.nWindow,
            unit: 'ratio of window to baseline',
          },
        ]
      : [];
  return [
    ...ratio('against the rest of the operation', result.outcome.against),
    ...ratio('this step alone', result.outcome.plain),
    ...ratio('the rest of the operation', result.outcome.rest),
    ...ratio('spread', result.outcome.spread),
    ...(result.lasted ?? []).flatMap(({ lasting }) => ratio(`following twenty ${lasting.nth}`, lasting.effect)),
  ];
}
