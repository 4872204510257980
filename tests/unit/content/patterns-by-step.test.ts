import { describe, expect, it } from 'vitest';
import { planDraft } from '../../../src/lib/rules';
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
  takenOver: 0,
  renewed: null,
  breakWeeks: null,
  waitingCases: 0,
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
};
const names = Object.keys(PATTERNS);

const given = (page: Page, name: string): string =>
  planDraft(plain(page, PATTERNS[name]?.(page)), page.page)
    .checkpoints.map(({ id }) => id)
    .join(' ');

const own = (page: Page, name: string): boolean =>
  planDraft(plain(page, PATTERNS[name]?.(page)), page.page).checkpoints.some(
    ({ because }) => because.code !== 'any-case',
  );

describe('every pattern on every page', () => {
  it.each(names)('%s is seen by a rule, and by one alone', (name) => {
    for (const page of pages)
      expect(planDraft(plain(page, PATTERNS[name]?.(page)), page.page).because, page.name).toHaveLength(1);
  });

  it('two patterns give the same three checkpoints only where a reason is written', () => {
    // Where neither pattern has a checkpoint of its own, the page's first three stand, and their sentence says so.
    const same = pages.flatMap((page) =>
      names.flatMap((a, place) =>
        names
          .slice(place + 1)
          .filter((b) => given(page, a) === given(page, b) && (own(page, a) || own(page, b)))
          .map((b) => `${page.name}: ${a} = ${b}`),
      ),
    );
    const reasoned = SAME_CHECKPOINTS.flatMap(({ on }) =>
      Object.entries(on).flatMap(([pair, where]) => where.map((name) => `${name}: ${pair}`)),
    );
    expect([...same].sort()).toEqual([...reasoned].sort());
  });
});
