import type { Audit } from '../../audit';
import type { Case } from '../../model';
import { standingViews, standsOut, type StandingView, type Suggestion } from '../../rules';
import { capital, inSentence } from '../../format';
import { firstOn, suggestionReasons, suggestionWords } from '../../words';
import { chooseDoesNotSay, chooseMade, chooseReading, chooseTitle } from '../../words/choose';
import { eyeWords } from '../cases/eye-words';
import { keyOf, rowOf, type ChooseRowView } from './choose-rows';
import { chooseTable, hasReference, type ChooseTable, type HowMade } from './choose-table';

export const VIEWS = standingViews;
export type View = StandingView;

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
    title: chooseTitle(audit, named, view),
    reading: chooseReading(audit, view),
    made: chooseMade(audit, heldBack),
    doesNotSay: enough && suggestion.steps.length > 0 ? chooseDoesNotSay(audit) : [],
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
