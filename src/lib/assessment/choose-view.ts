import type { Audit, StepAudit } from '../audit';
import { rulesThresholds } from '../rules';
import type { Suggestion } from '../rules/types';
import {
  clock,
  counted,
  firstOn,
  firstWords,
  inSentence,
  lessOrMore,
  prose,
  rangeOfRatios,
  suggestionWords,
  viewTitle,
} from '../words';

export const VIEWS = ['seconds', 'spread', 'reference'] as const;
export type View = (typeof VIEWS)[number];

/** Waiting below this is not drawn: a bar of a few seconds says nothing beside a step of minutes. */
const WAITING_DRAWN = 5;

export type ChooseView = {
  suggestion: { head: string; sentences: readonly string[] };
  /** The reasons of the suggestion, with their numbers. */
  because: readonly string[];
  /** Several steps are level: none of them is the main action. */
  level: boolean;
  view: View;
  views: readonly { id: View; label: string; hint: string }[];
  title: string;
  reading: string;
  rows: readonly ChooseRowView[];
  /** The row the title names, and the meaning of the marks that are drawn. */
  named: string | null;
  seed: number;
  key: string;
  table: { columns: { label: string; number?: boolean }[]; rows: string[][] };
  /** What the adjustment left out, and why. */
  said: readonly string[];
  steps: readonly { href: string; label: string; inSentence: string; suggested: boolean }[];
};

/** One row of the drawing: numbers to place, words to print. */
export type ChooseRowView = {
  id: string;
  href: string;
  label: string;
  usual: string | null;
  certainty: string;
  suggested: boolean;
  dots: readonly { code: string; ratio: number; said: string }[];
  range: readonly [number, number] | null;
  reference: { ratio: number; said: string } | null;
  bar: { seconds: number; low: number; high: number; said: string; told: string } | null;
  instead: string | null;
  waiting: { seconds: number; said: string } | null;
};

/** The view asked for by an address, the one the suggestion stands out on, or the seconds. */
export function viewOf(asked: string | null, audit: Audit, suggestion: Suggestion): View {
  const wanted = VIEWS.find((each) => each === asked) ?? VIEWS.find((each) => each === suggestion.view) ?? 'seconds';
  return wanted === 'reference' && !hasReference(audit) ? 'seconds' : wanted;
}

/** What Choose shows, in the order of the operation. `heldBack`: cases of a running window, not in the audit. */
export function chooseView(
  audit: Audit,
  suggestion: Suggestion,
  view: View,
  { heldBack, procedure }: { heldBack: number; procedure: string | null },
): ChooseView {
  const { enough } = audit.enough;
  // The view goes along: a goal keeps on which view its step was shown when it was chosen.
  const query = `?${new URLSearchParams({ ...(procedure ? { procedure } : {}), view })}`;
  const suggested = new Set(enough ? suggestion.steps : []);
  const steps = audit.steps.filter((step) => step.n > 0);
  const first = firstOn(audit, view);
  const named = enough && first && isClear(audit, first, view) ? first.stepId : null;
  const rows = steps.map((step) => rowOf(step, view, suggested.has(step.stepId), enough, query));
  return {
    suggestion: saidOf(audit, suggestion),
    because: suggestion.kind === 'safety' ? [] : suggestion.because,
    level: suggestion.steps.length > 1,
    view,
    views: viewChoices(audit),
    title: titleOf(audit, named, view),
    reading: readingOf(audit, heldBack),
    rows,
    named,
    seed: audit.seed,
    key: keyOf(rows),
    table: tableOf(steps, audit),
    said: audit.said,
    steps: rows.map(({ href, label, suggested: is }) => ({
      href,
      label,
      inSentence: inSentence(label),
      suggested: is,
    })),
  };
}

/** Does a step stand out on a view, by the same line as the suggestion? */
function isClear({ caseIds, listCount }: Audit, step: StepAudit, view: View): boolean {
  const { standsOut, standsOutSmall, smallCases, smallLists } = rulesThresholds;
  const small = caseIds.length < smallCases || (listCount ?? 0) < smallLists;
  return (step.first[view] ?? 0) >= (small ? standsOutSmall : standsOut);
}

/** The title says the answer; that no step stands out on the view is one. */
function titleOf(audit: Audit, named: string | null, view: View): string {
  if (!audit.enough.enough) return 'Your steps, in the order of the operation.';
  if (named) return viewTitle(audit, view);
  return {
    seconds: 'No step clearly holds the most seconds.',
    spread: 'No step clearly varies most.',
    reference: 'No step clearly differs most from the reference set.',
  }[view];
}

/** Safety is said with its own reasons: an event that waits, events that came close together, or the monitor's signal. */
function saidOf(audit: Audit, suggestion: Suggestion): ChooseView['suggestion'] {
  const said = suggestionWords(audit, suggestion);
  if (suggestion.kind !== 'safety') return said;
  return {
    head: suggestion.steps.length > 0 ? said.head : 'Safety first.',
    sentences: [...suggestion.because, 'Until this is reviewed no plan has a time in it.'],
  };
}

const hasReference = (audit: Audit) => audit.steps.some(({ reference }) => reference !== null);

function viewChoices(audit: Audit): ChooseView['views'] {
  return [
    { id: 'seconds', label: 'most seconds', hint: 'usual less one in five, in seconds a case' },
    { id: 'spread', label: 'varies most', hint: 'the range of two thirds of your cases' },
    ...(hasReference(audit)
      ? [{ id: 'reference' as const, label: 'against reference', hint: 'your usual against the reference set' }]
      : []),
  ];
}

function readingOf(audit: Audit, heldBack: number): string {
  const lists = audit.listCount === null ? '' : ` from ${counted(audit.listCount, 'list')}`;
  const unlisted =
    audit.listsFrom === 'blocks' ? ' Lists are not known, so eight neighbouring cases are treated as one.' : '';
  const unordered = audit.orderKnown ? '' : ' Their order in time is not known.';
  const held =
    heldBack > 0
      ? ` ${counted(heldBack, 'case')} of the running window ${heldBack === 1 ? 'is' : 'are'} not in it: their times are hidden until it is full.`
      : '';
  return `Latest ${counted(audit.caseIds.length, 'case')}${lists}, adjusted for the eye. Rows in the order of the operation.${unlisted}${unordered}${held}`;
}

function rowOf(step: StepAudit, view: View, suggested: boolean, enough: boolean, query: string): ChooseRowView {
  const { difference, differenceInterval: interval, reference, usual } = step;
  return {
    id: step.stepId,
    href: `/choose/${step.stepId}${query}`,
    label: step.label,
    usual: usual === null ? null : clock(usual),
    certainty: enough ? firstWords(step.first[view]) : '',
    suggested,
    dots: step.dots.map(({ code, ratio, seconds }) => ({ code, ratio, said: `${clock(seconds)} as recorded` })),
    range: usual !== null && step.usualRange ? [step.usualRange.low / usual, step.usualRange.high / usual] : null,
    reference:
      reference && usual !== null
        ? { ratio: reference.usual / usual, said: `reference ${clock(reference.usual)}` }
        : null,
    // A difference is never shown without its interval: with a dozen cases it may be off by half.
    bar:
      step.notToShorten || difference === null || interval === null
        ? null
        : {
            seconds: difference,
            low: interval.low,
            high: interval.high,
            said: prose(difference),
            told: `usual less one in five ${prose(difference)} (${prose(interval.low)} to ${prose(interval.high)})`,
          },
    instead: step.notToShorten ? 'not to be shortened' : difference !== null && !interval ? 'too few cases' : null,
    waiting:
      step.waitingPerCase > WAITING_DRAWN
        ? { seconds: step.waitingPerCase, said: `waiting ${prose(step.waitingPerCase)}` }
        : null,
  };
}

function keyOf(rows: readonly ChooseRowView[]): string {
  return [
    '○ one case, its time over your usual',
    rows.some(({ reference }) => reference) ? '◇ usual of the reference set' : '',
    'bar: usual less one in five, with its 95 % interval',
    rows.some(({ waiting }) => waiting) ? 'hatched: waiting' : '',
    '‹ › beyond the axis',
  ]
    .filter(Boolean)
    .join(' · ');
}

function tableOf(steps: readonly StepAudit[], audit: Audit): ChooseView['table'] {
  const reference = hasReference(audit);
  const seconds = (value: number | null) => (value === null ? 'not known' : clock(value));
  const ratio = (value: number) => String(Number(value.toFixed(2)));
  const hundred = (share: number | null) => (share === null ? 'not ranked' : `${Math.round(share * 100)} of 100`);
  const columns = [
    { label: 'Step' },
    { label: 'Cases', number: true },
    { label: 'Usual', number: true },
    { label: 'One in five', number: true },
    { label: 'Difference (95 %)' },
    { label: 'Usual range' },
    ...(reference ? [{ label: 'Times the reference (95 %)' }] : []),
    { label: 'Share of the operation', number: true },
    { label: 'Went back, a case', number: true },
    { label: 'Waiting, a case', number: true },
    { label: 'Over time, per 20 cases' },
    { label: 'First: most seconds' },
    { label: 'First: varies most' },
    ...(reference ? [{ label: 'First: against reference' }] : []),
  ];
  const rows = steps.map((step) => [
    step.label,
    String(step.n),
    seconds(step.usual),
    seconds(step.oneInFive),
    step.difference !== null && step.differenceInterval
      ? `${clock(step.difference)} (${clock(step.differenceInterval.low)} to ${clock(step.differenceInterval.high)})`
      : 'too few cases',
    step.usualRange ? `${clock(step.usualRange.low)} to ${clock(step.usualRange.high)}` : 'not known',
    ...(reference
      ? [
          step.reference
            ? `${ratio(step.reference.ratio)} (${ratio(step.reference.low)} to ${ratio(step.reference.high)})`
            : 'not in the set',
        ]
      : []),
    step.share === null ? 'not known' : `${Math.round(step.share * 100)} %`,
    step.wentBackPerCase === null ? 'not known' : step.wentBackPerCase.toFixed(2),
    clock(step.waitingPerCase),
    step.overTime
      ? `${lessOrMore(step.overTime.ratio)} (${rangeOfRatios(step.overTime.low, step.overTime.high)})`
      : 'not known',
    hundred(step.first.seconds),
    hundred(step.first.spread),
    ...(reference ? [hundred(step.first.reference)] : []),
  ]);
  return { columns, rows };
}
