import { describe, expect, it } from 'vitest';
import { chooseView, viewOf } from '../../../src/lib/rooms/choose/choose-view';
import { suggestionWords } from '../../../src/lib/words';
import { stepView } from '../../../src/lib/rooms/choose/step-view';
import { auditOf } from '../../../src/lib/audit';
import type { Case, ReferenceSet } from '../../../src/lib/model';
import type { Suggestion } from '../../../src/lib/rules/types';
import { listsFor, month, operation } from '../../made-up/month';

const audited = (cases: readonly Case[], references: readonly ReferenceSet[] = []) =>
  auditOf({ cases, lists: listsFor(cases), procedure: operation, references, seed: 1, resamples: 60 });
const nothing: Suggestion = {
  kind: 'nothing',
  steps: [],
  view: null,
  also: [],
  because: [{ code: 'first-too-seldom', stepId: 'sixth', view: 'seconds', numbers: { share: 0.25 } }],
};
const suggested: Suggestion = { kind: 'time', steps: ['sixth'], view: 'seconds', also: [], because: [] };
const show = (cases: readonly Case[], suggestion = suggested, view: 'seconds' | 'spread' = 'seconds', heldBack = 0) =>
  chooseView(audited(cases), suggestion, view, { heldBack, procedure: null });

describe('Choose', () => {
  it('keeps the order of the operation and prints words where a step is not to be shortened', () => {
    const { rows } = show(month(44));
    expect(rows.map(({ id }) => id)).toEqual(operation.steps.map(({ id }) => id));
    const last = rows[rows.length - 1];
    expect(last?.instead).toBe('not to be shortened');
    expect(last?.bar).toBeNull();
  });

  it('tells the eye of each case of the audit by its code, of no other', () => {
    const cases = month(44).map((one, at) => (at === 43 ? { ...one, facts: { dense: true } } : one));
    const audit = audited(cases);
    const held = { ...cases[0]!, id: 'held', code: 'HELD' };
    const view = chooseView(audit, suggested, 'seconds', { heldBack: 0, procedure: null, cases: [...cases, held] });
    expect([...view.eyes.keys()].sort()).toEqual(cases.map(({ code }) => code).sort());
    expect(view.eyes.get(cases[43]!.code)).toBe('dense');
  });

  it('says no waiting of a record in which none was ever noted', () => {
    const { columns, rows } = show(month(44)).table;
    const at = columns.findIndex(({ label }) => /waiting/i.test(label));
    expect(at).toBeGreaterThan(0);
    expect(rows.every((row) => row[at] === 'not noted')).toBe(true);
  });

  it('gives the change of a step over time as its page does, from the same cases, and only where it is clear', () => {
    const cases = month(100, { change: 0.6, from: 50 });
    const { columns, rows } = show(cases).table;
    const at = columns.findIndex(({ method }) => method === 'over-time');
    const cells = rows.map((row) => row[at]);
    const onPages = show(cases).rows.map(
      ({ id }) =>
        stepView(audited(cases), id, cases, { marked: {}, query: { procedure: null, view: null } })?.patterns.rows.find(
          (row) => row.id === 'over-time',
        )?.words ?? 'no clear change',
    );
    expect(cells).toEqual(onPages);
    expect(cells.some((cell) => cell?.startsWith('about '))).toBe(true);
    expect(cells).toContain('no clear change');
  });

  it('never shows a difference without its interval', () => {
    for (const count of [3, 8, 25, 44])
      for (const { bar } of show(month(count)).rows) if (bar) expect(bar.told).toMatch(/\(.+ to .+\)/);
    expect(show(month(3)).rows.every(({ bar }) => bar === null)).toBe(true);
  });

  it('says of one to four cases why there is no difference, in every place one would stand', () => {
    for (const count of [1, 2, 3, 4]) {
      const cases = month(count);
      const { rows, table } = show(cases, { ...nothing, kind: 'not-enough' });
      expect(rows.slice(0, -1).every(({ instead }) => instead === 'cannot say yet: too few cases')).toBe(true);
      expect(show(cases).key).not.toContain('bar:');
      const at = table.columns.findIndex(({ label }) => label === '20th percentile');
      expect(table.rows.every((row) => row[at] === 'too few cases')).toBe(true);
      expect(table.rows.every((row) => row[at + 1] === 'cannot say yet: too few cases')).toBe(true);
      const sentences = stepView(audited(cases), 'practised', cases, {
        marked: {},
        query: { procedure: null, view: null },
      })?.sentences.join(' ');
      expect(sentences).not.toContain('one in five');
      expect(sentences).toContain(`cannot be said yet: ${count} of the 5 cases it needs.`);
    }
  });

  it('says that whole seconds are too coarse for a short step, never "0 s, 0 to 0"', () => {
    const cases = month(44).map((each) => ({
      ...each,
      stretches: each.stretches.map((one) =>
        one.stepId === 'practised' ? { ...one, seconds: each.sequence % 4 === 0 ? 6 : 5 } : one,
      ),
    }));
    const row = show(cases).rows.find(({ id }) => id === 'practised');
    expect(row).toMatchObject({ bar: null, instead: 'whole seconds are too coarse', certainty: '' });
    const said = stepView(audited(cases), 'practised', cases, {
      marked: {},
      query: { procedure: null, view: null },
    })?.sentences.join(' ');
    expect(said).toContain('cannot be said: whole seconds are too coarse for a step this short');
    expect(JSON.stringify(show(cases).table.rows)).not.toContain('0:00 (0:00 to 0:00)');
  });

  it('says of a case without a time of the step only that: it may have been done and not timed', () => {
    const cases = month(44).map((each) =>
      each.id === 'case-7'
        ? { ...each, stretches: each.stretches.filter(({ stepId }) => stepId !== 'practised') }
        : each,
    );
    const view = stepView(audited(cases), 'practised', cases, { marked: {}, query: { procedure: null, view: null } });
    expect(JSON.stringify(view)).toContain('"no time of yours"');
    expect(JSON.stringify(view)).not.toContain('"not done');
  });

  it('marks the suggested row and names the row of the title, which the view can rank', () => {
    const view = show(month(44));
    expect(view.rows.filter((row) => row.suggested).map(({ id }) => id)).toEqual(['sixth']);
    expect(view.title).toMatch(/holds the most seconds\.$/);
    expect(view.named).not.toBe('seventh');
    expect(view.steps.find(({ suggested: is }) => is)?.href).toBe('/choose/sixth?view=seconds');
  });

  it('says how many more are needed, and then neither order nor certainty', () => {
    const view = show(month(9), { ...nothing, kind: 'not-enough' });
    expect(view.suggestion.head).toBe('Not enough yet.');
    expect(view.suggestion.lede.join(' ')).toContain('11 more cases');
    expect(view.title).toBe('Your steps, in the order of the operation.');
    expect(view.rows.every(({ certainty, suggested: is }) => certainty === '' && !is)).toBe(true);
  });

  it('says when nothing stands out that this is an answer', () => {
    const view = show(month(44), nothing);
    expect(view.suggestion.head).toBe('No step stands out.');
    expect(view.because).toEqual(['By seconds no step came first often enough: sixth in 25 of 100 resamples.']);
  });

  it('says where one step alone is timed that none can be compared', () => {
    const cases = month(44).map((each) => ({
      ...each,
      stretches: each.stretches.filter(({ stepId }) => stepId === 'practised'),
    }));
    const view = show(cases, nothing);
    expect(view.suggestion.head).toBe('Only one step is timed.');
    expect(view.suggestion.lede.join(' ')).toContain('none can be compared with another');
    expect(view.title).toBe('Your steps, in the order of the operation.');
    const rare = month(44).map((each) => ({
      ...each,
      stretches: each.stretches.filter(({ stepId }) => stepId === 'practised' || each.sequence <= 8),
    }));
    expect(show(rare, nothing).suggestion.lede.join(' ')).toContain('No two steps were timed in enough cases');
  });

  it('says which steps never vary where only one does', () => {
    const cases = month(44).map((each) => ({
      ...each,
      stretches: each.stretches
        .filter(({ stepId }) => ['first', 'practised', 'third'].includes(stepId ?? ''))
        .map((stretch) => (stretch.stepId === 'practised' ? stretch : { ...stretch, seconds: 30 })),
    }));
    expect(show(cases, nothing).suggestion.lede.join(' ')).toMatch(
      /^The times of first and third are too similar to compare a step with them\./i,
    );
  });

  it('gives safety its own reasons and no time', () => {
    const safety: Suggestion = {
      kind: 'safety',
      steps: [],
      view: 'safety',
      also: [],
      because: [{ code: 'monitor', numbers: {} }],
    };
    expect(show(month(44), safety).suggestion).toEqual({
      head: 'Safety first.',
      also: null,
      lede: [
        'Serious events are more frequent than the line set beforehand.',
        'Until its review is written, no change in time is called a result.',
      ],
    });
  });

  it('says how many cases of a running window it leaves out', () => {
    expect(show(month(44), suggested, 'seconds', 13).made.join(' ')).toContain(
      '13 cases of the running window are not in it',
    );
  });

  it('says on the view of what varies most what the bracket under the dots is, in words, key and numbers', () => {
    const spread = show(month(44), suggested, 'spread');
    expect(spread.reading).toContain('bracket under the dots holds two thirds of your cases, as recorded');
    expect(spread.key).toContain('bracket: two thirds of your cases, as recorded');
    expect(spread.rows[0]?.range?.said).toMatch(/^two thirds of cases between \d+:\d\d and \d+:\d\d, as recorded$/);
    expect(show(month(44)).reading).not.toContain('bracket');
  });

  it('leads from every number of its table to how it is made', () => {
    const { table, how } = show(month(44));
    expect(table.columns.slice(1).every(({ method }) => method !== undefined)).toBe(true);
    expect(how.drawing).toEqual(expect.arrayContaining(['median', 'spread', 'certainty']));
    expect(show(month(9), { ...nothing, kind: 'not-enough' }).how.suggestion).not.toContain('certainty');
  });

  it('falls back where a view cannot be shown', () => {
    const audit = audited(month(44));
    expect(viewOf('reference', audit, suggested)).toBe('seconds');
    expect(viewOf('rubbish', audit, suggested)).toBe('seconds');
    expect(viewOf('spread', audit, suggested)).toBe('spread');
    expect(viewOf(null, audit, { ...suggested, view: 'spread' })).toBe('spread');
  });

  it('offers the reference view only where there is a set, and places its usual as a ratio', () => {
    const cases = month(44);
    const reference: ReferenceSet = {
      id: 'reference-1',
      label: 'unit',
      procedureId: operation.id,
      agreedAt: '2026-01-01T08:00:00.000Z',
      invented: false,
      cases: month(24, { seed: 8 }).map((each, index) => ({
        reader: `R${1 + (index % 3)}`,
        list: Math.floor(index / 4),
        facts: {},
        stepSeconds: Object.fromEntries(each.stretches.map(({ stepId, seconds }) => [stepId ?? '', seconds / 2])),
      })),
    };
    const view = chooseView(audited(cases, [reference]), suggested, 'reference', { heldBack: 0, procedure: 'made-up' });
    expect(view.views.map(({ id }) => id)).toContain('reference');
    expect(view.rows[1]?.reference?.ratio).toBeGreaterThan(0.35);
    expect(view.rows[1]?.reference?.ratio).toBeLessThan(0.7);
    expect(view.rows[1]?.href).toContain('procedure=made-up');
    expect(view.doesNotSay.join(' ')).toContain('The reference set: 24 cases of 3 other surgeons.');
    const { sentences } = suggestionWords(audited(cases, [reference]), { ...suggested, view: 'reference' });
    expect(sentences.join(' ')).toMatch(/in the reference set \(.+; 24 cases of 3 other surgeons\)/);
    const step = stepView(audited(cases, [reference]), 'sixth', cases, {
      marked: {},
      query: { procedure: null, view: null },
    });
    expect(step?.sentences.join(' ')).toContain('24 cases of 3 other surgeons');
    expect(show(cases).views.map(({ id }) => id)).not.toContain('reference');
  });

  it('has a cell for every column of its table, and no NaN', () => {
    for (const count of [1, 9, 44]) {
      const { table } = show(month(count));
      for (const row of table.rows) expect(row).toHaveLength(table.columns.length);
      expect(JSON.stringify(table)).not.toMatch(/NaN|undefined|Infinity/);
    }
  });
});

describe('a step, case by case', () => {
  const query = { procedure: null, view: 'seconds' as const };
  const slowed = (by: (stepId: string | null) => number) =>
    month(30, { sd: 0.01, lists: true }).map((each) =>
      each.sequence === 10
        ? { ...each, stretches: each.stretches.map((one) => ({ ...one, seconds: one.seconds * by(one.stepId) })) }
        : each,
    );
  const at10 = (cases: readonly Case[]) =>
    stepView(audited(cases), 'practised', cases, { marked: { 'case-10': 'longer' }, query })?.run.cases.find(
      ({ id }) => id === 'case-10',
    );

  it('compares a step with the rest of the same operation: a hard eye is no fault', () => {
    expect(at10(slowed(() => 2))?.ratio).toBeCloseTo(1, 1);
    expect(at10(slowed((id) => (id === 'practised' ? 2 : 1)))?.ratio).toBeCloseTo(2, 1);
    expect(at10(slowed(() => 1))?.mark).toBe('longer');
  });

  it('says what was looked at, that it is no cause, and where little can be seen', () => {
    const cases = month(30);
    const view = stepView(audited(cases), 'practised', cases, { marked: {}, query });
    expect(view?.patterns.lead).toContain('only very large differences would show');
    expect(view?.patterns.looked).toMatch(/^Looked at and not clear: /);
    expect(view?.planHref).toBe('/plan?step=practised&view=seconds');
    expect(view?.counts.map(({ sentence }) => sentence).join(' ')).toContain('cannot show that it is safe');
    // None in 30: 1 − 0.05^(1/30) = 0.0950.
    expect(view?.counts.map(({ sentence }) => sentence).join(' ')).toContain(
      '0 of 30: the true rate could be up to 9.5 in 100',
    );
    expect(view?.counts.map(({ sentence }) => sentence).join(' ')).toContain('never shortened: identity pause');
  });

  it('says in a sentence that events were never asked, and draws no lane of question marks', () => {
    const lanes = (cases: readonly Case[]) =>
      stepView(audited(cases), 'practised', cases, { marked: {}, query })?.run ?? null;
    const never = lanes(month(30).map((each) => ({ ...each, events: null })));
    expect(never?.lanes).toEqual(['lists']);
    expect(lanes(month(30).map((each) => ({ ...each, events: null, listId: null })))?.lanes).toEqual([]);
    expect(never?.reading).toContain('Events were not asked in these cases, so none are marked.');
    expect(never?.key).not.toContain('?');
    const once = lanes(month(30).map((each, at) => (at > 0 ? { ...each, events: null } : each)));
    expect(once?.lanes).toEqual(['lists', 'events']);
    expect(once?.reading).not.toContain('not asked');
    expect(once?.key).toContain('? not answered');
  });

  it('does not call it "none" where the record cannot tell it', () => {
    const sentence = (over: Partial<Case>) => {
      const cases = month(30).map((each) => ({ ...each, ...over }));
      const view = stepView(audited(cases), 'practised', cases, { marked: {}, query });
      return view?.counts.find(({ how }) => how === 'returned-to')?.sentence;
    };
    expect(sentence({})).toContain('is not known');
    expect(sentence({ returnsNoted: { practised: 0 } })).toBe('Returned to in none of 30 cases.');
    expect(sentence({ returnsNoted: { practised: 1 } })).toContain('Returned to in 30 of 30 cases');
  });

  it('is not there for a step without a time', () => {
    const cases = month(30).map((each) => ({
      ...each,
      stretches: each.stretches.filter(({ stepId }) => stepId !== 'fifth'),
    }));
    expect(stepView(audited(cases), 'fifth', cases, { marked: {}, query })).toBeNull();
    expect(stepView(audited(cases), 'nowhere', cases, { marked: {}, query })).toBeNull();
  });

  it('speaks of a step that is not to be shortened', () => {
    const cases = month(30);
    expect(stepView(audited(cases), 'seventh', cases, { marked: {}, query })?.notToShorten).toContain(
      'not to be shortened',
    );
  });
});
