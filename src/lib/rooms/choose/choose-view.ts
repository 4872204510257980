import type { Audit, StepAudit } from '../../audit';
import type { Case } from '../../model';
import { standingViews, standsOut, type StandingView, type Suggestion } from '../../rules';
import { capital, clock, counted, inSentence, prose } from '../../format';
import { auditCaveatsWords, differenceInstead, firstOn, firstWords } from '../../words';
import { othersCases, suggestionReasons, suggestionWords, viewTitle } from '../../words';
import { eyeWords } from '../cases/eye-words';
import { chooseTable, hasReference, type ChooseTable, type HowMade } from './choose-table';

export const VIEWS = standingViews;
export type View = StandingView;

/** Waiting below this is not drawn: a bar of a few seconds says nothing beside a step of minutes. */
const WAITING_DRAWN = 5;

export type ChooseView = {
  suggestion: { head: string; lede: readonly string[]; also: string | null };
  /** Where the step that takes longer in certain eyes can be planned for those eyes. */
  aim: { href: string; words: string } | null;
  /** The reasons of the suggestion, with their numbers and the surgeon's own times. */
  because: readonly string[];
  /** Several steps cannot be told apart: none of them is the main action. */
  level: boolean;
  view: View;
  views: readonly { id: View; label: string }[];
  title: string;
  reading: string;
  /** What the cases are, and which are not in it. */
  made: readonly string[];
  /** What the suggestion is easily mistaken for; `null` where nothing is suggested. */
  doesNotSay: readonly string[];
  rows: readonly ChooseRowView[];
  /** The row the title names, and the meaning of the marks that are drawn. */
  /** What is known of the eye of each case, by its code. */
  eyes: ReadonlyMap<string, string>;
  named: string | null;
  seed: number;
  key: string;
  table: ChooseTable;
  /** The pages on how the numbers of the suggestion, and of the drawing, are made. */
  how: { suggestion: readonly HowMade[]; drawing: readonly HowMade[] };
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
  range: { low: number; high: number; said: string } | null;
  reference: { ratio: number; said: string } | null;
  /** `withEye`: what goes with the eye, beside the part that is ranked; 0 where the difference is not split. */
  bar: {
    seconds: number;
    withEye: number;
    low: number;
    high: number;
    said: string;
    saidWithEye: string;
    told: string;
  } | null;
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
  { heldBack, procedure, cases = [] }: { heldBack: number; procedure: string | null; cases?: readonly Case[] },
): ChooseView {
  const { enough } = audit.enough;
  const words = suggestionWords(audit, suggestion);
  // The view is passed on: a goal records the view on which its step was shown when it was chosen.
  const query = `?${new URLSearchParams({ ...(procedure ? { procedure } : {}), view })}`;
  const label = (id: string) => audit.steps.find(({ stepId }) => stepId === id)?.label ?? id;
  const suggested = new Set(enough ? suggestion.steps : []);
  const steps = audit.steps.filter((step) => step.n > 0);
  const first = firstOn(audit, view);
  const named = enough && first && standsOut(audit, first, view) ? first.stepId : null;
  // Safety first is no suggestion for time: its step is named above, and not marked as suggested.
  const marked = suggestion.kind === 'safety' ? new Set<string>() : suggested;
  const rows = steps.map((step) => rowOf(step, view, marked.has(step.stepId), enough, query));
  return {
    suggestion: { head: words.head, lede: words.lede, also: words.also && `${capital(words.also)}.` },
    aim: enough && suggestion.eyes ? aimOf(suggestion.eyes, procedure, label) : null,
    because:
      suggestion.kind === 'safety' || suggestion.kind === 'held-back'
        ? []
        : [
            ...suggestionReasons(audit, {
              ...suggestion,
              because: suggestion.because.filter(({ code }) => code !== 'held-back'),
            }),
            ...(words.own ? [words.own] : []),
          ],
    level: suggestion.steps.length > 1,
    view,
    views: viewChoices(audit),
    title: titleOf(audit, named, view),
    reading: readingOf(audit, view),
    made: madeOf(audit, heldBack),
    doesNotSay: enough && suggestion.steps.length > 0 ? doesNotSay(audit) : [],
    rows,
    eyes: eyesOf(audit, cases),
    named,
    seed: audit.seed,
    key: keyOf(rows, view),
    table: chooseTable(steps, audit),
    how: howMade(rows, suggestion, enough),
    steps: rows.map(({ id, href, label }) => ({
      href,
      label,
      inSentence: inSentence(label),
      suggested: suggested.has(id),
    })),
  };
}

/** By the codes of the audit's cases: once a case, not once a point of it. */
function eyesOf({ caseIds, procedure }: Audit, cases: readonly Case[]): ChooseView['eyes'] {
  const shown = new Set(caseIds);
  return new Map(cases.filter(({ id }) => shown.has(id)).map((one) => [one.code, eyeWords(one, procedure)]));
}

function aimOf(
  { stepId, factId, levels, label: eyes }: NonNullable<Suggestion['eyes']>,
  procedure: string | null,
  label: (id: string) => string,
): ChooseView['aim'] {
  // The audit names a yes/no fact's answers true and false; either is read where the plan is opened.
  const query = new URLSearchParams({
    step: stepId,
    ...(procedure ? { procedure } : {}),
    eyes: `${factId}:${levels.join('+')}`,
  });
  return { href: `/plan?${query}`, words: `Plan ${inSentence(label(stepId))} for these eyes only (${eyes})` };
}

/** The title gives the answer; that no step stands out on the view is an answer too. */
function titleOf(audit: Audit, named: string | null, view: View): string {
  if (!audit.enough.enough) return 'Your steps, in the order of the operation.';
  if (named) return viewTitle(audit, view);
  // Where no step is ranked on the view, none was compared.
  if (audit.steps.every(({ first }) => first[view] === null)) return 'Your steps, in the order of the operation.';
  return {
    seconds: 'No step clearly holds the most seconds.',
    spread: 'No step clearly varies most.',
    reference: 'No step clearly differs most from the reference set.',
  }[view];
}

function viewChoices(audit: Audit): ChooseView['views'] {
  return [
    { id: 'seconds', label: 'most seconds' },
    { id: 'spread', label: 'varies most' },
    ...(hasReference(audit) ? [{ id: 'reference' as const, label: 'against reference' }] : []),
  ];
}

/** A page a kind of number that is shown. */
function howMade(rows: readonly ChooseRowView[], { kind }: Suggestion, enough: boolean): ChooseView['how'] {
  const reference: HowMade[] = rows.some((row) => row.reference) ? ['reference'] : [];
  const ranked: HowMade[] = enough ? ['certainty'] : [];
  return {
    suggestion: kind === 'safety' ? ['suggestion'] : ['suggestion', 'median', ...reference, ...ranked],
    drawing: [
      'adjusted',
      'median',
      ...(rows.some(({ range }) => range) ? (['spread'] as const) : []),
      ...reference,
      ...ranked,
      ...(rows.some(({ waiting }) => waiting) ? (['waiting'] as const) : []),
    ],
  };
}

function readingOf(audit: Audit, view: View): string {
  const range = view === 'spread' ? ' The bracket under the dots holds two thirds of your cases, as recorded.' : '';
  const lists = audit.listCount === null ? '' : ` from ${counted(audit.listCount, 'list')}`;
  return `Latest ${counted(audit.caseIds.length, 'case')}${lists}; dots and ranks are adjusted for the eye. Rows in the order of the operation.${range}`;
}

/** How the numbers of the drawing are made, in this record. */
function madeOf(audit: Audit, heldBack: number): string[] {
  return [
    ...(audit.listsFrom === 'blocks' ? ['Lists are not known, so eight neighbouring cases are treated as one.'] : []),
    ...(audit.orderKnown ? [] : ['Their order in time is not known.']),
    ...(heldBack > 0
      ? [
          `${counted(heldBack, 'case')} of the running window ${heldBack === 1 ? 'is' : 'are'} not in it: their times are hidden until it is full and reviewed.`,
        ]
      : []),
    ...auditCaveatsWords(audit.caveats),
  ];
}

const doesNotSay = (audit: Audit): string[] => [
  'That anything is wrong, or that a shorter step is a better one.',
  ...(hasReference(audit) ? [`${referenceWords(audit)} Their mix of eyes was not yours.`] : []),
];

/** Whose cases the diamonds and the ratios are of. */
function referenceWords({ steps }: Audit): string {
  const sets = steps.flatMap(({ reference }) => reference ?? []);
  if (sets.length === 0) return '';
  const most = (of: (set: (typeof sets)[number]) => number) => Math.max(...sets.map(of));
  return `The reference set: ${othersCases({ n: most(({ n }) => n), readers: most(({ readers }) => readers) })}.`;
}

function rowOf(step: StepAudit, view: View, suggested: boolean, enough: boolean, query: string): ChooseRowView {
  const { reference, median } = step;
  const bar = step.notToShorten ? null : barOf(step);
  return {
    id: step.stepId,
    href: `/choose/${step.stepId}${query}`,
    label: step.retired ? `${step.label} (retired)` : step.label,
    usual: median === null ? null : clock(median),
    certainty: enough ? firstWords(step.first[view]) : '',
    suggested,
    dots: step.dots.map(({ code, ratio, seconds }) => ({ code, ratio, said: `${clock(seconds)} as recorded` })),
    range:
      median !== null && step.twoThirds
        ? {
            low: step.twoThirds.low / median,
            high: step.twoThirds.high / median,
            said: `two thirds of cases between ${clock(step.twoThirds.low)} and ${clock(step.twoThirds.high)}, as recorded`,
          }
        : null,
    reference:
      reference && median !== null
        ? { ratio: 1 / reference.ratio, said: `reference median ${clock(reference.median)}, as recorded` }
        : null,
    bar,
    instead: step.notToShorten ? 'not to be shortened' : bar ? null : differenceInstead(step.differenceCannot),
    waiting:
      step.waitingPerCase > WAITING_DRAWN
        ? { seconds: step.waitingPerCase, said: `waiting ${prose(step.waitingPerCase)}` }
        : null,
  };
}

/** A difference is never shown without its interval: with a dozen cases it may be off by half. */
function barOf(step: StepAudit): ChooseRowView['bar'] {
  const { difference, differenceSameEyes, differenceWithEye, differenceInterval: interval } = step;
  if (difference === null || interval === null) return null;
  const seconds = differenceSameEyes ?? difference;
  return {
    seconds,
    withEye: differenceWithEye ?? 0,
    low: interval.low,
    high: interval.high,
    said: prose(seconds),
    saidWithEye: differenceWithEye ? ` + ${prose(differenceWithEye)}` : '',
    told:
      differenceSameEyes === null
        ? `median less 20th percentile ${prose(seconds)} (${prose(interval.low)} to ${prose(interval.high)})`
        : `median less 20th percentile ${prose(difference)}, as recorded; among the same kind of eye, adjusted, ${prose(seconds)} (${prose(interval.low)} to ${prose(interval.high)})`,
  };
}

function keyOf(rows: readonly ChooseRowView[], view: View): string {
  const bars = rows.flatMap(({ bar }) => bar ?? []);
  const apart = bars.some(({ withEye }) => withEye > 0);
  return [
    '○ one case, its adjusted time over your median',
    rows.some(({ reference }) => reference) ? '◇ median of the reference set, adjusted' : '',
    view === 'spread' ? 'bracket: two thirds of your cases, as recorded' : '',
    bars.length > 0 ? 'bar: median less 20th percentile, with its 95 % interval' : '',
    apart ? 'hatched part: goes with the eye; steps are ranked by the rest, adjusted, and the interval is of it' : '',
    rows.some(({ waiting }) => waiting) ? 'hatched below it: waiting, the mean of all cases' : '',
    '‹ › beyond the axis',
  ]
    .filter(Boolean)
    .join(' · ');
}
