import { describe, expect, it } from 'vitest';
import { afterView, type AfterView } from '../../../src/lib/rooms/after-twenty/after-view';
import { decided } from '../../../src/lib/rooms/after-twenty/decisions';
import { ENGINE } from '../../../src/lib/assess/engine';
import { reviewedCase, withReview } from '../../../src/lib/rooms/forms/event-review';
import { goalLines } from '../../../src/lib/rooms/after-twenty/goal-lines';
import { goalReading, lastingOf, seriesOf } from '../../../src/lib/rooms/goals/goal-reading';
import type { SurgeonRecord, Event, Goal, Reflection } from '../../../src/lib/model';
import { goalsBeside, goalsOnStep } from '../../../src/lib/rooms/choose/step-goals';
import { hashOfCases } from '../../../src/lib/practice';
import { goalAfter, listsFor, month, operation, type Month } from '../../made-up/month';
import { aRecord } from '../../made-up/record';
import { ids, withLasted, withResult } from '../../made-up/read-month';
import { plainReflection, aTear } from '../../made-up/plain';
import { goalOn } from '../../made-up/goal-on';

const NOW = '2026-11-25T08:00:00.000Z';
/** Praise and blame, and what a broken number leaves behind. */
const NEVER_SAID =
  /\b(improve|improved|better|faster|quicker|slower|best|worst|target|score|lost time|NaN|undefined|null)\b/i;

/** Every text a screen could print. */
function wordsIn(value: unknown): string[] {
  if (typeof value === 'string') return [value];
  return typeof value === 'object' && value !== null ? Object.values(value).flatMap(wordsIn) : [];
}

function recordOf(count: number, how: Month = {}, over: Partial<Goal> = {}): SurgeonRecord {
  const cases = month(count, how);
  const start = cases.filter(({ sequence }) => sequence <= 40);
  const goal = goalAfter(40, {
    checkpoints: [{ id: 'fold', look: 'The flap lies folded over.' }],
    watch: ['pause'],
    ...over,
  });
  const fixed = { ...goal, baseline: { ...goal.baseline, hash: hashOfCases(start) } };
  return aRecord({ procedures: [operation], cases, lists: listsFor(cases), goals: [fixed] });
}

/** What After twenty shows of this record as it is. */
function viewOf(record: SurgeonRecord): AfterView {
  const state = goalReading(record, record.goals[0]!);
  const lasting = lastingOf(record, state);
  return afterView({ state, record, lasting, series: seriesOf(record, state), signal: 'Talk.' });
}

/** The same once the result was read, where there is one to read. */
function seen(record: SurgeonRecord): { view: AfterView; record: SurgeonRecord } {
  const ready = goalReading(record, record.goals[0]!).toStore !== null;
  const read = ready ? withResult(record, NOW) : record;
  const { time } = viewOf(read);
  const after = time.kind === 'result' && time.lastingReady ? withLasted(read, NOW) : read;
  return { view: viewOf(after), record: after };
}

const serious: Event = aTear('practised');
const withEvent = (record: SurgeonRecord, number: number, event: Event): SurgeonRecord => ({
  ...record,
  cases: record.cases.map((each) => (each.sequence === number ? { ...each, events: [event] } : each)),
});

describe('while the window runs', () => {
  it('shows what was done and safety, and of time only how far it is', () => {
    const { view } = seen(recordOf(53));
    expect(view.time).toEqual({
      kind: 'hidden',
      sentence:
        'Hidden until the window is full and its cases are reviewed, or its result is read. So far 13 of 20 cases, 3 of 4 lists.',
      offer: 'Show them; the result still comes at twenty',
      earlier: null,
    });
    expect(view.done.rows[0]?.words).toBe('not answered yet');
    expect(view.safety.head).toContain('No event in these 13 cases');
    expect(JSON.stringify(view)).not.toMatch(/\d+ s\b|usual|median/);
  });

  it('shows points on wish, noted, without a median, a limit or a word of a result', () => {
    const { view } = seen(recordOf(53, {}, { timesShown: ['2026-11-20T08:00:00.000Z'] }));
    if (view.time.kind !== 'so-far') throw new Error(view.time.kind);
    expect(view.time.sentence).toContain('20 November 2026');
    expect(view.time.run?.periods.map(({ median }) => median)).toEqual([null, null]);
    expect(view.time.run?.limits).toBeNull();
    expect(view.time.run?.cases.filter(({ period }) => period === 1)).toHaveLength(13);
  });

  it('counts nothing for a draft', () => {
    const { view } = seen(recordOf(53, {}, { state: 'draft' }));
    expect(view.time.kind).toBe('none');
    expect(view.notices[0]).toContain('draft until it is agreed');
    expect(view.decisions.offered).toEqual([]);
  });
});

describe('when the window is full', () => {
  it('waits for the wish to read the result: until then there is no time, no drawing of it and no word of it', () => {
    const record = recordOf(60, { change: Math.log(0.7) }, { timesShown: ['2026-11-20T08:00:00.000Z'] });
    const state = goalReading(record, record.goals[0]!);
    expect(state.toStore).toMatchObject({ look: 'first', baselineIds: ids(1, 40), windowIds: ids(41, 60) });
    expect(state.drawn).toEqual([]);
    expect(seriesOf(record, state)).toBeNull();
    const view = viewOf(record);
    expect(view.time).toEqual({
      kind: 'ready',
      sentence:
        'The next twenty are complete. The result is stored when you read it, once, and shown unchanged from then on. 20 cases wait for your review. Answer their checkpoints first: once the result is known, what you remember follows it. It can be read at once all the same; answers given later are then marked.',
      offer: 'Read the result',
      earlier: null,
    });
    expect(view.otherCharts).toBeNull();
    expect(view.done.beside).toEqual([]);
    expect(view.decisions.offered.map(({ value }) => value)).toEqual(['pause', 'move-on']);
    expect(wordsIn(view).join(' ')).not.toMatch(/\d+\s%|median|Shorter/);
  });

  it('has nothing to store once it is stored, while the window runs, for a draft, or while a review is owed', () => {
    const toStore = (record: SurgeonRecord) => goalReading(record, record.goals[0]!).toStore;
    const full = recordOf(60);
    expect(toStore(withResult(full))).toBeNull();
    expect(toStore(recordOf(59))).toBeNull();
    expect(toStore(recordOf(60, {}, { state: 'draft' }))).toBeNull();
    expect(toStore(withEvent(full, 45, serious))).toBeNull();
    const second = decided(withResult(full).goals[0]!, 'second-look', 'not sure', NOW);
    expect(toStore({ ...withResult(recordOf(80)), goals: [second] })).toMatchObject({
      look: 'second',
      windowIds: ids(41, 80),
    });
  });

  it('has each drawing in numbers too, and the other charts only then', () => {
    const { view } = seen(recordOf(60, { change: Math.log(0.7) }));
    if (view.time.kind !== 'result') throw new Error(view.time.kind);
    const { table, rows, reading } = view.time.result;
    expect(table.rows.map(([label]) => label)).toEqual(rows.map(({ label }) => label));
    expect(table.rows.every(([, change]) => /%|no difference/.test(change ?? ''))).toBe(true);
    expect(reading).toContain('rests on the row in bold');
    expect(view.done.table.rows).toHaveLength(20);
    expect(view.done.table.rows[0]).toHaveLength(view.done.table.columns.length);
    expect(view.done.table.rows[0]?.slice(1)).toContain('not answered');
    expect(view.safety.table.rows).toHaveLength(20);
    expect(view.safety.table.rows[0]?.[1]).toBe('no event');
    expect(view.otherCharts?.average.input.periods).toEqual([{ id: '1', label: 'next twenty' }]);
    expect(view.otherCharts?.average.input.cases).toHaveLength(20);
    expect(view.time.result.how).toEqual(['result', 'error-rates']);
    for (const timesShown of [[], ['2026-11-20T08:00:00.000Z']])
      expect(seen(recordOf(53, {}, { timesShown })).view.otherCharts).toBeNull();
  });

  it('says shorter against the rest with its interval, what it does not say, and draws medians', () => {
    const record = recordOf(60, { change: Math.log(0.7) });
    const { view } = seen(record);
    if (view.time.kind !== 'result') throw new Error(view.time.kind);
    expect(view.time.result.head).toBe('Shorter, beyond the rest of the operation.');
    expect(view.time.result.doesNotSay).toContain('that the checkpoints did it');
    expect(view.time.result.rows.map(({ id, bold }) => [id, bold])).toEqual([
      ['plain', false],
      ['against', true],
    ]);
    const against = view.time.result.rows[1];
    expect(against?.low).toBeLessThan(against?.ratio ?? 0);
    expect(against?.high).toBeLessThan(1);
    expect(view.time.run?.periods[1]?.median).toBeLessThan(0.85);
    expect(view.time.run?.title).toMatch(/^Practised: about \d+\u00A0% less time in the next twenty\.$/);
    // Read out case by case: its place in the run, its time as recorded, its eye.
    const [first] = view.time.run?.cases ?? [];
    const own = record.cases.find(({ id }) => id === first?.id);
    const seconds = Math.round(own?.stretches.find(({ stepId }) => stepId === 'practised')?.seconds ?? NaN);
    const recorded = `${Math.floor(seconds / 60)}:${String(seconds % 60).padStart(2, '0')}`;
    expect(first?.said).toMatch(/^\d+ per cent of the baseline median, against the rest of the operation/);
    expect(first?.said).toContain(`; ${recorded} as recorded; dense`);
    expect(view.time.today).toBeNull();
    expect(view.decisions.offered.map(({ value }) => value)).toEqual([
      'keep',
      'second-look',
      'change-checkpoints',
      'move-on',
      'pause',
    ]);
  });

  it('calls nothing a failure where nothing changed', () => {
    const { view } = seen(recordOf(60));
    if (view.time.kind !== 'result') throw new Error(view.time.kind);
    expect(['No clear change.', 'Little change.']).toContain(view.time.result.head);
    expect(wordsIn(view).filter((text) => NEVER_SAID.test(text))).toEqual([]);
  });

  it('gives the following twenties their word, with the figure that was read', () => {
    const { view } = seen(recordOf(80, { change: Math.log(0.6) }));
    if (view.time.kind !== 'result') throw new Error(view.time.kind);
    expect(view.time.lasting).toHaveLength(1);
    expect(view.time.lasting[0]?.head).toBe('Lasted');
    const read = view.time.result.rows[1]?.words.split(' (')[0] ?? '';
    expect(view.time.lasting[0]?.sentence).toContain(`In the first window it was ${read}.`);
    expect(view.time.run?.title).toContain('and it lasted');
    // What followed stands in the same drawing, case by case.
    const { periods = [], cases = [], table } = view.time.run ?? {};
    expect(periods.length).toBeGreaterThan(2);
    expect(cases.length).toBeGreaterThan(60);
    expect(table?.rows).toHaveLength(cases.length);
  });

  it('keeps a stored result as it was, and says what today would give and why', () => {
    const { record } = seen(recordOf(60, { change: Math.log(0.7) }));
    const edited = {
      ...record,
      cases: record.cases
        .filter(({ sequence }) => sequence !== 58)
        .map((each) =>
          each.sequence === 41
            ? {
                ...each,
                history: [{ at: '2026-12-01T08:00:00.000Z', what: 'Times changed' }],
                stretches: each.stretches.map((one) => (one.stepId === 'practised' ? { ...one, seconds: 300 } : one)),
              }
            : each,
        ),
    };
    const before = seen(record).view.time;
    const after = seen(edited).view.time;
    if (before.kind !== 'result' || after.kind !== 'result') throw new Error('no result');
    expect(after.result.head).toBe(before.result.head);
    expect(after.result.rows).toEqual(before.result.rows);
    expect(after.today?.sentence).toMatch(/stays as it was read|could not be worked out/);
    expect(after.today?.reasons.join(' ')).toContain(
      '1 of the 20 cases of the window has been taken out of the record since.',
    );
    expect(after.today?.reasons.join(' ')).toContain('1 of the 20 cases of the window has been changed since: C41.');
  });

  it('adds twenty for a second look and keeps the first beside it', () => {
    const first = seen(recordOf(60, { change: Math.log(0.7) }));
    const goal = decided(first.record.goals[0] as Goal, 'second-look', 'not sure', NOW);
    const waiting = seen({ ...first.record, goals: [goal] });
    if (waiting.view.time.kind !== 'hidden') throw new Error(waiting.view.time.kind);
    expect(waiting.view.time.sentence).toContain('20 of 40');
    expect(waiting.view.time.earlier?.when).toContain('First look');
    const more = month(80, { change: Math.log(0.7) });
    const full = seen({ ...first.record, goals: [goal], cases: more, lists: listsFor(more) });
    if (full.view.time.kind !== 'result') throw new Error(full.view.time.kind);
    expect(full.record.results.map(({ look }) => look)).toEqual(['first', 'second']);
    expect(full.view.time.result.beside.join(' ')).toContain('Second look, at forty.');
    expect(full.view.time.earlier?.head).toBe('Shorter, beyond the rest of the operation.');
  });

  it('leaves time out of a goal about checkpoints', () => {
    const { view } = seen(recordOf(60, {}, { measure: 'checkpoints' }));
    if (view.time.kind !== 'result') throw new Error(view.time.kind);
    expect(view.time.result.head).toBe('What you did is the result.');
  });
});

describe('safety before time', () => {
  it('pauses an unreviewed serious event, stores nothing, shows the numbers, and asks for the review', () => {
    const { view, record } = seen(withEvent(recordOf(60, { change: Math.log(0.7) }), 45, serious));
    if (view.time.kind !== 'result') throw new Error(view.time.kind);
    expect(record.results).toEqual([]);
    expect(view.time.result.head).toBe('Paused for safety review.');
    expect(view.time.result.sentences.join(' ')).toContain('posterior capsule tear');
    expect(view.time.result.when).toContain('Not stored yet');
    expect(view.time.result.rows).not.toEqual([]);
    expect(view.reviews).toMatchObject([{ code: 'C45', index: 0 }]);
  });

  it('shows the result once the review is written: recording an event costs nothing', () => {
    const paused = withEvent(recordOf(60, { change: Math.log(0.7) }), 45, serious);
    const read = reviewedCase(
      { case: ['case-45'], event: ['0'], 'review-case-45-0': ['Look for the port before the hold.'] },
      paused.cases,
      operation,
      NOW,
    );
    if (read.kind !== 'reviewed') throw new Error(read.errors[0]?.message);
    const { view } = seen({
      ...paused,
      cases: paused.cases.map((each) => (each.id === read.case.id ? read.case : each)),
    });
    if (view.time.kind !== 'result') throw new Error(view.time.kind);
    expect(view.time.result.head).toBe('Shorter, beyond the rest of the operation.');
    expect(view.reviews).toEqual([]);
  });

  it('says above a stored result that an event was added since, its numbers untouched', () => {
    const { record, view } = seen(recordOf(60, { change: Math.log(0.7) }));
    const later = seen(withEvent(record, 45, serious)).view;
    expect(later.notices.join(' ')).toContain('Since this result was read');
    expect(later.time.kind === 'result' && later.time.result).toEqual(view.time.kind === 'result' && view.time.result);
  });

  it('asks about very short times where there are more than chance brings, and names their cases', () => {
    const hasty = (how: Month) => {
      const cases = month(60, how);
      const { baseline } = goalOn(cases, { engine: ENGINE });
      const { view } = seen(recordOf(60, how, { baseline }));
      return view.time.kind === 'result' ? view.time.shortTimes : null;
    };
    const asked = hasty({ change: Math.log(0.6) });
    expect(asked?.sentence).toMatch(
      /^\d+ of these 20 times, adjusted for the eye, are shorter than nine in ten of the baseline cases\. Look: was anything left out\?/,
    );
    expect(asked?.cases.length).toBeGreaterThan(4);
    expect(asked?.cases.every(({ id }) => Number(id.split('-')[1]) > 40)).toBe(true);
    expect(hasty({})).toBeNull();
  });

  it('stores a pause that no review can end', () => {
    const tied = withEvent(withEvent(recordOf(60), 45, { ...serious, reviewed: { at: NOW, text: 'done' } }), 50, {
      ...serious,
      reviewed: { at: NOW, text: 'done' },
    });
    const { record } = seen(tied);
    expect(record.results[0]?.outcome.kind).toBe('paused');
  });

  it('refuses an empty review and one that names a person', () => {
    const { cases } = withEvent(recordOf(60), 45, serious);
    const read = (text: string) =>
      reviewedCase({ case: ['case-45'], event: ['0'], 'review-case-45-0': [text] }, cases, operation, NOW);
    expect(read('').kind).toBe('errors');
    expect(read('Spoke with Dr Smith about it.')).toMatchObject({
      errors: [{ message: expect.stringContaining('looks like a name') }],
    });
    expect(reviewedCase({ case: ['case-1'], event: ['0'] }, cases, operation, NOW).kind).toBe('errors');
  });

  it('never writes over a review that stands, and gives words to one that came without', () => {
    const review = { at: NOW, text: 'Look for the port first.' };
    const reviewed = (text: string | null) => ({ ...serious, reviewed: { at: '2026-03', text } });
    expect(withReview([serious], 0, review)).toEqual([{ ...serious, reviewed: review }]);
    expect(withReview([serious, reviewed(null)], 1, review)?.[1]?.reviewed).toEqual(review);
    expect(withReview([reviewed('Stands.')], 0, review)).toBeNull();
    expect(withReview([serious], 3, review)).toBeNull();
  });
});

describe('what was done', () => {
  const note = (over: Partial<Reflection>): Reflection => ({
    id: 'reflection-1',
    at: '2026-07-01T08:00:00.000Z',
    caseIds: [],
    goalId: 'goal-1',
    stepId: 'practised',
    ...plainReflection(),
    ...over,
  });

  it('counts the latest answer of a case, and marks those given after the lengths were shown', () => {
    const reflections = [
      note({
        answers: [
          { caseId: 'case-41', checkpointId: 'fold', answer: 'not' },
          { caseId: 'case-42', checkpointId: 'fold', answer: 'did-not-arise' },
        ],
        protectedSeen: [{ caseId: 'case-41', protectedPartId: 'pause', seen: true }],
      }),
      note({
        id: 'reflection-2',
        at: '2026-07-02T08:00:00.000Z',
        beforeLengths: false,
        answers: [{ caseId: 'case-41', checkpointId: 'fold', answer: 'done' }],
      }),
    ];
    const { view } = seen({ ...recordOf(45), reflections });
    const [fold, kept] = view.done.rows;
    expect(fold?.words).toBe(
      'done in 1 of 5, does not apply in 1; 3 not answered; 1 answered after the times had been shown',
    );
    expect(fold?.cells.map(({ kind }) => kind)).toEqual(['filled', 'dot', 'blank', 'blank', 'blank']);
    expect(kept?.words).toBe('seen in 1 of 1 answered; not answered in 4');
  });
});

describe('goals in one line', () => {
  const readIn = (record: SurgeonRecord) => (goal: Goal) => {
    const state = goalReading(record, goal);
    return { state };
  };

  it('says result and lasting of each', () => {
    const { record } = seen(recordOf(80, { change: Math.log(0.6) }));
    const [line] = goalLines(record, readIn(record));
    expect(line?.said).toBe('shorter, beyond the rest of the operation; lasted');
  });

  const told = (record: SurgeonRecord) =>
    goalsOnStep(goalLines(record, readIn(record)), operation.id, 'practised').map(({ sentence }) => sentence);

  it('is told on the page of its step: running with how far, closed with its cases, result and whether it lasted', () => {
    const [running] = told(recordOf(53));
    expect(running).toMatch(/^A goal on this step is running, set on .+: 13 of 20 counted\.$/);
    const { record } = seen(recordOf(80, { change: Math.log(0.6) }));
    expect(told(record)[0]).toContain('Its result: 20 cases; shorter, beyond the rest of the operation; lasted.');
    const goals = record.goals.map((goal) => ({ ...goal, state: 'closed' as const }));
    expect(told({ ...record, goals })[0]).toMatch(
      /^You had a goal on this step, set on .+: 20 cases; shorter, beyond the rest of the operation; lasted\.$/,
    );
    expect(told(recordOf(53, {}, { state: 'closed' }))[0]).toMatch(/: closed without a result\.$/);
    expect(told(recordOf(53, {}, { state: 'paused' }))[0]).toMatch(/^A goal on this step is paused, set on [^:]+\.$/);
  });

  it('is told on Choose by the name of its step, and only beside steps of its own procedure', () => {
    const lines = goalLines(recordOf(53), () => null);
    expect(goalsBeside(lines, operation.id)[0]?.sentence).toMatch(/^A goal on practised/i);
    expect(goalsBeside(lines, 'another')).toEqual([]);
    expect(goalsOnStep(lines, operation.id, 'sixth')).toEqual([]);
  });
});
