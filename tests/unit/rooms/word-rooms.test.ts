import { readFileSync } from 'node:fs';
import { describe, expect, it } from 'vitest';
import { searchGuidance, stepRows } from '../../../src/lib/rooms/checkpoints/checkpoints-view';
import { goalLines } from '../../../src/lib/rooms/after-twenty/goal-lines';
import { goalReading } from '../../../src/lib/rooms/goals/goal-reading';
import { noteViews } from '../../../src/lib/rooms/before-a-list/note-view';
import { answerSummary } from '../../../src/lib/words/reflection';
import {
  changedReflection,
  reflectionForm,
  reflectionRows,
  waitingLists,
} from '../../../src/lib/rooms/reflect/reflect-view';
import { goalReport, monthReport, reportMarkdown, withoutPersons, yearReport } from '../../../src/lib/rooms/report';
import { loadCautions, loadGuidance, loadProcedures } from '../../../src/lib/server/content';
import { everythingSchema } from '../../../src/lib/server/storage';
import { durationIn } from '../../../src/lib/words';

const fellow = everythingSchema.parse(JSON.parse(readFileSync('demo-data/fellow.json', 'utf8')));
const procedures = loadProcedures();
const cautions = loadCautions();
const texts = {
  standing: cautions.standing.paragraphs,
  foot: cautions['note-for-the-list'].paragraphs,
  generalLead: cautions['general-note'].paragraphs[0] ?? '',
  generalPoints: cautions['general-note'].points,
  rupture: cautions['capsule-rupture'].paragraphs,
};
const allWords = (value: unknown): string[] =>
  typeof value === 'string'
    ? [value]
    : value && typeof value === 'object'
      ? Object.values(value).flatMap(allWords)
      : [];

describe('the note for the list', () => {
  it('carries no duration, for any step of any shipped procedure', () => {
    const [template] = fellow.goals;
    if (!template) throw new Error('the fellow has goals');
    for (const page of loadGuidance()) {
      const goal = {
        ...template,
        state: 'running' as const,
        procedureId: page.procedureId,
        stepId: page.step,
        checkpoints: page.checkpoints.slice(0, 3).map(({ id, look }) => ({ id, look })),
        reminders: [...page.reminders],
        stopSigns: [...page.stop],
      };
      const [note] = noteViews([goal], procedures, texts);
      expect(note?.stop).toEqual([...page.stop, ...texts.rupture]);
      const words = allWords({ ...note, goalId: '' });
      expect(words.length).toBeGreaterThan(5);
      for (const line of words) expect(durationIn(line), `${page.procedureId} ${page.step}: ${line}`).toBeNull();
    }
  });

  it('is general without a goal, and while a goal waits for the supervisor', () => {
    expect(noteViews([], procedures, texts)).toMatchObject([{ kind: 'general', reminders: { length: 3 } }]);
    expect(noteViews([], procedures, texts)[0]?.reminders).toContain(texts.rupture[0]);
    const drafts = fellow.goals.map((goal) => ({ ...goal, state: 'draft' as const }));
    expect(noteViews(drafts, procedures, texts)[0]?.lead).toContain('not agreed with your supervisor yet');
  });

  it('gives one note a running goal', () => {
    const running = fellow.goals.map((goal) => ({ ...goal, state: 'running' as const }));
    expect(noteViews(running, procedures, texts).map((note) => note.title)).toEqual([
      'Capsulorhexis',
      'Cortex aspiration',
    ]);
  });
});

describe('reflections', () => {
  const [first, second] = fellow.goals;
  it('ticks the cases of the latest list among those waiting, and one case where lists are not known', () => {
    const [older, latest] = fellow.lists.slice(-2);
    if (!older || !latest) throw new Error('the fellow has lists');
    const on = (listId: string) => fellow.cases.filter((one) => one.listId === listId).map(({ id }) => id);
    const waiting = [...on(older.id), ...on(latest.id)];
    const lists = waitingLists(fellow.cases, fellow.lists, waiting);
    expect(lists.map(({ listId }) => listId)).toEqual([latest.id, older.id]);
    expect(lists.map(({ cases }) => cases.map(({ id }) => id))).toEqual([on(latest.id), on(older.id)]);
    expect(lists.map(({ cases }) => cases.every(({ ticked }) => ticked))).toEqual([true, false]);
    expect(lists[1]?.cases.some(({ ticked }) => ticked)).toBe(false);

    const unknown = fellow.cases.map((one) => ({ ...one, listId: null }));
    const [only] = waitingLists(unknown, [], waiting);
    expect(only?.title).toBe('List not known');
    expect(only?.cases.filter(({ ticked }) => ticked).map(({ id }) => id)).toEqual([fellow.cases.at(-1)?.id]);
    expect(waitingLists(fellow.cases, fellow.lists, [])).toEqual([]);
  });
  it('marks answers that were changed after the lengths had been seen, and no others', () => {
    const before = fellow.reflections.find((each) => each.beforeLengths && each.answers.length > 1);
    if (!before) throw new Error('the fellow answered before the lengths');
    const other = before.answers.map((each, at) =>
      at === 0 ? { ...each, answer: each.answer === 'done' ? ('not' as const) : ('done' as const) } : each,
    );
    const at = '2026-11-20T18:00:00.000Z';
    const changed = (input: Partial<typeof before>, seen: boolean) =>
      changedReflection(before, { ...before, ...input }, seen, at);
    expect(changed({ answers: other }, true).beforeLengths).toBe(false);
    expect(changed({ answers: other }, false).beforeLengths).toBe(true);
    expect(changed({ answers: [...before.answers].reverse() }, true).beforeLengths).toBe(true);
    expect(changed({ saw: 'Another text.' }, true)).toMatchObject({
      beforeLengths: true,
      saw: 'Another text.',
      history: [...before.history, { at, saw: before.saw, willTry: before.willTry }],
    });
    expect(changed({ answers: other }, true).history).toEqual(before.history);
  });
  it('asks the checkpoints of the goal and the protected parts it watches, and only text without one', () => {
    const form = reflectionForm(second ?? null, procedures);
    expect(form.checkpoints).toHaveLength(3);
    expect(form.kept.map((part) => part.id)).toEqual(second?.watch);
    expect(reflectionForm(null, procedures)).toMatchObject({ checkpoints: [], kept: [] });
  });
  it('finds by word, step and day, newest first, whatever case and accents', () => {
    const find = (filter: Partial<Parameters<typeof reflectionRows>[1]>) =>
      reflectionRows(
        { ...fellow, procedures },
        {
          word: '',
          stepId: '',
          checkpointId: '',
          from: '',
          to: '',
          ...filter,
        },
      );
    const all = find({});
    expect(all).toHaveLength(fellow.reflections.length);
    expect([...all].sort((a, b) => (a.day < b.day ? 1 : -1)).map((row) => row.id)).toEqual(all.map((row) => row.id));
    const dye = find({ word: 'DYÉ' });
    expect(dye.length).toBeGreaterThan(0);
    for (const row of dye) expect(`${row.saw} ${row.willTry}`.toLowerCase()).toContain('dye');
    expect(find({ stepId: 'cortex-aspiration' }).every((row) => row.stepLabel === 'Cortex aspiration')).toBe(true);
    expect(find({ from: '2026-10-01' }).every((row) => row.day >= '2026-10-01')).toBe(true);
    expect(find({ word: 'zebra' })).toEqual([]);
    // A checkpoint's own words find the notes that answered it.
    const { id, look } = first?.checkpoints[0] ?? { id: '', look: '' };
    const answered = fellow.reflections.filter((each) => each.answers.some(({ checkpointId }) => checkpointId === id));
    const found = find({ word: look }).map((row) => row.id);
    expect(answered.length).toBeGreaterThan(0);
    expect(answered.map((each) => each.id).filter((each) => !found.includes(each))).toEqual([]);
    expect(find({ checkpointId: first?.checkpoints[0]?.id }).every((row) => row.stepLabel === 'Capsulorhexis')).toBe(
      true,
    );
  });
  it('sums answers in words', () => {
    expect(
      answerSummary({
        answers: [
          { caseId: 'case-1', checkpointId: 'x', answer: 'done' },
          { caseId: 'case-2', checkpointId: 'x', answer: 'not' },
        ],
      }),
    ).toBe('1 done, 1 not done');
  });
});

describe('checkpoints', () => {
  const phaco = procedures.find((each) => each.id === 'phaco');
  if (!phaco) throw new Error('phaco is shipped');
  it('lists every step in the order of the operation, with a page each', () => {
    const rows = stepRows(phaco, loadGuidance(), []);
    expect(rows.map((row) => row.stepId)).toEqual(phaco.steps.map((step) => step.id));
    expect(rows.every((row) => row.hasPage && row.checkpoints >= 5)).toBe(true);
  });
  it('finds lines that hold all words looked for, and a step by the name people use', () => {
    const hits = searchGuidance('regrasp', phaco, loadGuidance(), []);
    expect(hits.some((hit) => hit.stepLabel === 'Capsulorhexis')).toBe(true);
    for (const hit of hits) expect(hit.text.toLowerCase()).toContain('regrasp');
    expect(searchGuidance('CCC', phaco, loadGuidance(), []).map((hit) => hit.stepLabel)).toContain('Capsulorhexis');
    expect(searchGuidance('   ', phaco, loadGuidance(), [])).toEqual([]);
  });
});

describe('the report', () => {
  const record = {
    ...fellow,
    procedures,
    cautions: cautions.standing.paragraphs,
    falsePerHundred: 3,
    lines: goalLines({ ...fellow, procedures }, (each) => {
      const state = goalReading({ ...fellow, procedures }, each);
      return { state };
    }),
  };
  const [goal] = fellow.goals;
  if (!goal) throw new Error('the fellow has goals');
  const ticked = fellow.reflections
    .filter((each) => each.goalId === goal.id)
    .slice(0, 1)
    .map((each) => each.id);
  const reports = [
    goalReport(goalReading(record, goal), record, ticked, []),
    monthReport('2026-05', fellow.goals, record, []),
    yearReport('2026', fellow.goals, record),
  ];

  it('says what was chosen, done and found, with n and interval, and what it does not say', () => {
    const text = reportMarkdown(reports[0] ?? monthReport('2026-05', [], record, []));
    for (const needed of [
      '# Capsulorhexis: one practice goal',
      'against a reference set',
      '20 cases against 80 baseline cases',
      '% less',
      'Does not say that',
      'Clopper–Pearson',
      'From my notes',
    ])
      expect(text).toContain(needed);
  });
  it('gives months, never a day, a code or an id of a case', () => {
    for (const report of reports) {
      const text = JSON.stringify(report);
      expect(text).not.toMatch(/\d{4}-\d{2}-\d{2}/);
      expect(text).not.toMatch(/\bF\d{3}\b|case-\d+|list-\d+|NaN|undefined/);
    }
  });
  it('includes only the notes ticked', () => {
    expect(reports[0]?.notes).toHaveLength(1);
    expect(reports[1]?.notes).toEqual([]);
  });
  it('keeps back what looks like a person, says what, and lets it out once it is said to be nobody', () => {
    const [goal] = fellow.goals;
    const [note] = fellow.reflections.filter(({ goalId }) => goalId === goal?.id);
    if (!goal || !note) throw new Error('the fellow wrote about a goal');
    const at = '2026-11-20T18:00:00.000Z';
    const told = {
      ...goal,
      reason: 'Suggested by Dr Brown',
      decisions: [{ at, kind: 'keep' as const, reason: 'It lasts.' }],
    };
    const written = { ...note, saw: 'Seen on 3 May.', willTry: 'Hold the flap.' };
    const kept = withoutPersons(told, [written], false);
    expect(kept.looksLike).toEqual(['"Dr Brown" looks like a name', '"3 May" looks like a date']);
    expect(kept.goal).toMatchObject({ reason: '', decisions: [{ reason: 'It lasts.' }] });
    expect(kept.reflections).toMatchObject([{ saw: '', willTry: 'Hold the flap.' }]);
    expect(withoutPersons(told, [written], true)).toEqual({ goal: told, reflections: [written], looksLike: [] });
    expect(withoutPersons(null, [], false)).toEqual({ goal: null, reflections: [], looksLike: [] });
  });
  it('tells in a year how often chance alone reads as shorter', () => {
    // At least one of twelve at 2 in 100 is 1 − 0.98¹² = 0.215, at 3 in 100 it is 0.306.
    for (const [falsePerHundred, years] of [
      [2, 'five'],
      [3, 'three'],
    ] as const)
      expect(reportMarkdown(yearReport('2026', fellow.goals, { ...record, falsePerHundred }))).toContain(
        `in about one year in ${years}.`,
      );
  });
});
