import { describe, expect, it } from 'vitest';
import { planDraft, rules } from '../../../src/lib/rules';
import type { StepFacts } from '../../../src/lib/rules/types';
import { loadGuidance, loadProcedures } from '../../../src/lib/server/content';
import { pattern, reference, stepAudit } from '../rules/made-up-audit';
import { SAME_CHECKPOINTS } from './same-checkpoints';

const pages = loadGuidance().flatMap((page) => {
  const procedure = loadProcedures().find(({ id }) => id === page.procedureId);
  const step = procedure?.steps.find(({ id }) => id === page.step);
  return procedure && step ? [{ page, procedure, step, name: `${procedure.id}/${step.id}` }] : [];
});
type Page = (typeof pages)[number];

const plain = ({ step }: Page, more: Partial<StepFacts> = {}): StepFacts => ({
  step: stepAudit(step.id, { first: { seconds: 0.05, spread: 0.05, reference: null } }),
  cases: 60,
  patterns: [],
  protectedParts: [],
  safety: { stepId: step.id, seriousUnreviewed: 0, seriousLast100: 0, casesSinceLatest: null, kinds: [] },
  shorterFifthClean: null,
  shorterFifthMissed: [],
  takenOver: 0,
  renewed: null,
  breakWeeks: null,
  waitingCases: 0,
  twoToWatch: true,
  pair: null,
  ...more,
});
const audit = (page: Page, more: Parameters<typeof stepAudit>[1]) => ({
  step: stepAudit(page.step.id, { first: { seconds: 0.05, spread: 0.05, reference: null }, ...more }),
});
const seen = (page: Page, more: Parameters<typeof pattern>[1]) => ({ patterns: [pattern(page.step.id, more)] });

/** Each pattern the rules tell apart, alone. */
const PATTERNS: Record<string, (page: Page) => Partial<StepFacts>> = {
  longer: (page) => audit(page, { reference: reference(2) }),
  'returned to': (page) => audit(page, { returnedTo: { cases: 50, of: 100, perCase: 0.5 } }),
  varies: (page) => audit(page, { spread: 1.6 }),
  waiting: (page) => ({ ...audit(page, { waitingPerCase: 40 }), waitingCases: 20 }),
  'certain eyes': (page) => seen(page, { factor: 'combined=true' }),
  'late in list': (page) => seen(page, { kind: 'place', factor: 'place-last-third' }),
  'first on list': (page) => seen(page, { kind: 'place', factor: 'place-first' }),
  'after earlier': (page) => seen(page, { kind: 'earlier-step', earlierStepId: page.step.earlier[0] ?? null }),
  'over time': (page) => seen(page, { kind: 'over-time', factor: 'over-time' }),
  'two humps': (page) => seen(page, { kind: 'bimodality', factor: 'bimodality' }),
  hasty: () => ({ shorterFifthClean: false }),
  'taken over': () => ({ takenOver: 3 }),
  'after a break': () => ({ breakWeeks: 10 }),
  circumstances: (page) => seen(page, { factor: 'list-teaching=true' }),
};
/** The same on this page, with what only some pages have: an earlier step, parts, and the eyes and events it names. */
function patternsOf(page: Page): Record<string, Partial<StepFacts>> {
  const { step, page: guidance } = page;
  const [first] = step.earlier;
  const patterns: [string, Partial<StepFacts>][] = Object.entries(PATTERNS).map(([name, more]) => [name, more(page)]);
  if (first) patterns.push(['renewed', { renewed: { stepId: first, cases: 60, of: 100, perCase: 0.6 } }]);
  for (const { id } of step.protectedParts) {
    const protectedParts = step.protectedParts.map((part) => ({ ...part, seen: part.id === id ? 5 : 20, looked: 20 }));
    patterns.push([`part:${id}`, { protectedParts }]);
  }
  for (const fit of new Set(guidance.checkpoints.flatMap(({ fits }) => fits))) {
    const [kind, id = '', level = 'true'] = fit.split(':');
    if (kind === 'event') patterns.push([fit, { safety: { ...plain(page).safety, casesSinceLatest: 3, kinds: [id] } }]);
    if (kind === 'eye') patterns.push([fit, seen(page, { factor: `${id}=${level === 'no' ? 'false' : level}` })]);
  }
  return Object.fromEntries(patterns);
}

const draftOf = (page: Page, more: Partial<StepFacts> | undefined) => planDraft(plain(page, more), page.page);
const drafts = pages.map((page) => ({
  page,
  patterns: Object.entries(patternsOf(page)).map(([name, more]) => {
    const draft = draftOf(page, more);
    return {
      name,
      draft,
      /** What its rule looks for on a page. */
      fits: rules
        .filter(({ id }) => draft.because.some(({ code }) => code === id))
        .flatMap((rule): readonly string[] => [...rule.fits, ...(rule.sees?.(plain(page, more)) ?? [])]),
      given: draft.checkpoints.map(({ id }) => id).join(' '),
      own: draft.checkpoints.some(({ because }) => because.code !== 'any-case'),
    };
  }),
}));

type Drafted = (typeof drafts)[number]['patterns'][number];

describe('every pattern on every page', () => {
  it('is seen by a rule, and by one alone', () => {
    const wrong = drafts.flatMap(({ page, patterns }) =>
      patterns
        .filter(({ draft }) => draft.because.length !== 1)
        .map(({ name, draft }) => `${page.name}: ${name}: ${draft.because.map(({ code }) => code).join(' ')}`),
    );
    expect(drafts.flatMap(({ patterns }) => patterns).length).toBeGreaterThan(700);
    expect(wrong).toEqual([]);
  });

  it('an eye, an event or a part that a page names leads to a checkpoint for it, first of all', () => {
    const wrong = drafts.flatMap(({ page, patterns }) =>
      patterns.flatMap(({ name, draft }) => {
        if (!name.includes(':')) return [];
        const first = page.page.checkpoints.find(({ id }) => id === draft.checkpoints[0]?.id);
        return first?.fits.some((fit) => fit === name) ? [] : [`${page.name}: ${name}: ${first?.id ?? 'nothing'}`];
      }),
    );
    expect(wrong).toEqual([]);
  });

  it('two patterns give the same three checkpoints only where a reason is written', () => {
    // Where neither pattern has a checkpoint of its own, the page's first three stand, and their sentence says so. Where an
    // eye, an event or a part is one of the two, the reason is that the first checkpoint is written for both.
    const same = drafts.flatMap(({ page, patterns }) => {
      const firstAnswers = ({ draft }: Drafted, { fits }: Drafted) =>
        page.page.checkpoints
          .find(({ id }) => id === draft.checkpoints[0]?.id)
          ?.fits.some((fit) => fits.some((each) => each === fit)) ?? false;
      return patterns.flatMap((a, place) =>
        patterns
          .slice(place + 1)
          .filter((b) => a.given === b.given && (a.own || b.own))
          .filter((b) => !`${a.name} ${b.name}`.includes(':') || !firstAnswers(a, a) || !firstAnswers(b, b))
          .map((b) => `${page.name}: ${a.name} = ${b.name}`),
      );
    });
    const reasoned = SAME_CHECKPOINTS.flatMap(({ on }) =>
      Object.entries(on).flatMap(([pair, where]) => where.map((name) => `${name}: ${pair}`)),
    );
    expect([...same].sort()).toEqual([...reasoned].sort());
  });
});
