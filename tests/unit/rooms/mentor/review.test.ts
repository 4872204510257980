import { describe, expect, it } from 'vitest';
import { readFileSync } from 'node:fs';
import { mentorAnchors, type Goal, type MentorForm, type MentorReview } from '../../../../src/lib/model';
import type { Pair, PairCase } from '../../../../src/lib/audit';
import { mentorView } from '../../../../src/lib/rooms/mentor/mentor-view';
import { readReviewForm } from '../../../../src/lib/rooms/mentor/review-form';
import { begun, latestReview, stageOf, written } from '../../../../src/lib/rooms/mentor/review-steps';
import { stretchesToWatch } from '../../../../src/lib/rooms/mentor/stretches';
import { ANCHOR_WORDS, chosenWords, durationIn, sideBySideWords } from '../../../../src/lib/words';
import { aCase, aGoal, aRecord, smallProcedure } from '../../../made-up/record';

const now = '2026-06-01T10:00:00.000Z';
const later = '2026-06-02T10:00:00.000Z';
const cases = [4, 3, 2, 1].map((n) => aCase(n));
const pairCase = (caseId: string): PairCase => ({
  caseId,
  code: caseId,
  seconds: 83,
  adjusted: 83,
  hasRecording: true,
  uneventful: true,
  stretches: [{ start: 60, end: 143 }],
  why: [],
});
const pair: Pair = {
  kind: 'pair',
  stepId: 'capsulorhexis',
  shorter: pairCase('case-3'),
  longer: pairCase('case-1'),
  same: [],
  different: [],
  caveats: [],
};
const none: Pair = { kind: 'cannot', why: { code: 'no-other' } };
const three = { caseIds: ['case-1', 'case-3', 'case-4'], chosen: 'pair-and-latest' as const };

const goal = (reviews?: MentorReview[]): Goal => ({
  ...aGoal(4),
  checkpoints: [
    { id: 'regrasp', look: 'The flap is taken again near the tearing edge.' },
    { id: 'deep', look: 'The chamber is deep at the puncture.' },
  ],
  ...(reviews ? { mentorReviews: reviews } : {}),
});
const half = (regrasp: MentorForm['ratings'][number]['anchor'], over: Partial<MentorForm> = {}): MentorForm => ({
  at: now,
  ratings: [{ checkpointId: 'regrasp', anchor: regrasp }],
  saw: '',
  ...over,
});
/** Without the quotes of JSON, one of which after a figure reads as seconds. */
const plain = (value: unknown) => JSON.stringify(value).replaceAll('"', ' ');
const must = (changed: Goal | null): Goal => {
  if (!changed) throw new Error('the half was refused');
  return changed;
};

describe('the stretches to watch', () => {
  const of = (all: typeof cases, found: Pair) => stretchesToWatch(all, smallProcedure, 'capsulorhexis', found);

  it('are the pair and the latest counted case beside it, in order of their codes', () => {
    expect(of(cases, pair)).toEqual(three);
  });

  it('say nothing of events, which may not have been answered in them', () => {
    expect([2, 3].map((count) => chosenWords('pair-and-latest', count)).join(' ')).not.toMatch(/event/);
  });

  it('do not promise that the latest of them cannot be told', () => {
    expect(chosenWords('pair-and-latest', 3)).toMatch(
      /latest counted case.*which of the pair is the shorter is not said/,
    );
  });

  it('pass over a case that is left out, or without the step', () => {
    const leftOut = { reason: 'timing-unreliable' as const, timesSeen: false, at: now };
    expect(of([aCase(4, { leftOut }), ...cases.slice(1)], pair)?.caseIds).toEqual(['case-1', 'case-2', 'case-3']);
    expect(of([aCase(4, { stretches: [] }), ...cases.slice(1)], pair)?.caseIds).toEqual(['case-1', 'case-2', 'case-3']);
  });

  it('are the three latest where the record holds no pair, fewer where there are fewer, and none where there are none', () => {
    expect(of(cases, none)).toEqual({ caseIds: ['case-2', 'case-3', 'case-4'], chosen: 'latest' });
    expect(of([aCase(1)], none)?.caseIds).toEqual(['case-1']);
    expect(of([], none)).toBeNull();
    // Of a case noted by hand there is no recording.
    const source = { kind: 'by-hand' as const };
    expect(of([aCase(4, { source }), ...cases.slice(1)], none)?.caseIds).not.toContain('case-4');
    expect(of([aCase(1, { source })], none)).toBeNull();
  });
});

describe('a review', () => {
  const started = begun(goal(), three, now);
  const learner = must(written(started, 'learner', half('each-time'), ''));
  const both = must(written(learner, 'mentor', half('with-correction', { at: later }), ''));
  const stage = (each: Goal) => stageOf(latestReview(each));

  it('takes the learner’s half first, then the mentor’s', () => {
    expect([goal(), started, learner, both].map(stage)).toEqual(['none', 'learner', 'mentor', 'done']);
    expect(written(started, 'mentor', half('each-time'), '')).toBeNull();
    expect(written(goal(), 'learner', half('each-time'), '')).toBeNull();
  });

  it('stores a half that is sent twice once, and puts no other in its place', () => {
    expect(written(learner, 'learner', half('each-time', { at: later }), '')).toBe(learner);
    expect(written(learner, 'learner', half('not-seen', { at: later }), '')).toBeNull();
  });

  it('lets a half that stood open be corrected, and keeps that both had been seen by then', () => {
    const alone = must(written(learner, 'learner', half('not-seen', { at: later }), now));
    expect(latestReview(alone)).toMatchObject({ learner: { ratings: [{ anchor: 'not-seen' }] }, mentor: null });
    expect(latestReview(alone)?.typedAgain).toBeUndefined();
    const after = must(written(both, 'mentor', half('each-time'), later));
    expect(latestReview(after)?.typedAgain).toBe(true);
    expect(mentorView(aRecord({ cases, goals: [after] }), after, three).together?.typedAgain).toBe(
      'A half was typed again after both had been seen.',
    );
  });

  it('begins once, gives way while nothing is written, and stays beside the next one', () => {
    expect(begun(started, three, later)).toBe(started);
    const other = { caseIds: ['case-2'], chosen: 'latest' as const };
    expect(begun(started, other, later).mentorReviews).toEqual([{ at: later, ...other, learner: null, mentor: null }]);
    expect(begun(both, three, later).mentorReviews).toHaveLength(2);
  });
});

describe('the page and the sheet', () => {
  const started = begun(goal(), three, now);
  const learner = must(written(started, 'learner', half('each-time', { saw: 'The flap lay flat.' }), ''));
  const both = must(written(learner, 'mentor', half('with-correction'), ''));
  const view = (each: Goal, correct: string | null = null) =>
    mentorView(aRecord({ cases, goals: [each] }), each, three, correct);

  it('show nothing of the learner’s half before the mentor’s is stored', () => {
    const words = JSON.stringify(view(learner));
    expect(view(learner)).toMatchObject({ stage: 'mentor', together: null, half: { by: 'mentor', values: {} } });
    expect(words).not.toContain('The flap lay flat.');
    expect(words).not.toContain('"regrasp","anchor"');
  });

  it('lay both side by side in words, a line a checkpoint', () => {
    expect(view(both).together).toEqual({
      lines: [
        {
          look: 'The flap is taken again near the tearing edge.',
          words: 'You: seen each time; mentor: seen with correction; watch again.',
        },
        { look: 'The chamber is deep at the puncture.', words: 'Both: not rated.' },
      ],
      wrote: [{ who: 'You', text: 'The flap lay flat.' }],
      typedAgain: null,
    });
  });

  it('open a stored half with what stands in it', () => {
    expect(view(both, 'learner').half).toMatchObject({
      by: 'learner',
      values: { 'rating:regrasp': ['each-time'], saw: ['The flap lay flat.'] },
      replaces: now,
    });
    expect(view(learner, 'mentor').half).toMatchObject({ by: 'mentor', replaces: '' });
    expect(view(both, 'constructor').half).toBeNull();
  });

  it('name the stretches by code alone, an erased case as such', () => {
    expect(view(started).stretches?.codes).toEqual(['A1', 'A3', 'A4']);
    const erased = mentorView(aRecord({ cases: cases.slice(1), goals: [started] }), started, three);
    expect(erased.stretches?.codes).toEqual(['A1', 'A3', 'a case erased since']);
  });

  it('say why no review can begin', () => {
    expect(view({ ...goal(), checkpoints: [] }).cannot).toContain('no checkpoints');
    expect(mentorView(aRecord(), goal(), null).cannot).toContain('nothing to watch');
    expect(view(goal()).cannot).toBeNull();
  });

  it('hold no duration, no date, no total and no score at any stage', () => {
    const cautions = readFileSync('content/cautions/mentor-review.md', 'utf8');
    for (const each of [goal(), started, learner, both, begun(both, three, later)])
      for (const correct of [null, 'learner', 'mentor']) {
        const { half: open, ...shown } = view(each, correct);
        // When a stored half was stored travels with its form, unseen.
        const words = plain([shown, open && { ...open, replaces: '' }]);
        expect(durationIn(words)).toBeNull();
        expect(words).not.toMatch(/\d{4}-\d{2}|\b\d+ of \d+|score|total|%/i);
      }
    expect(durationIn(cautions)).toBeNull();
    // The check finds what it looks for: where a stretch of the pair lies, and its length.
    for (const leak of ['from 1:00 to 2:23', '83 s']) expect(durationIn(plain({ leak }))).not.toBeNull();
  });
});

describe('agreement in words', () => {
  it('is said for every two answers; only a difference asks to watch again', () => {
    const answers = [...mentorAnchors, null];
    for (const one of answers)
      for (const other of answers) {
        const words = sideBySideWords(one, other);
        expect(words.startsWith('Both: ')).toBe(one === other);
        expect(words.endsWith('; watch again.')).toBe(one !== other && one !== null && other !== null);
        expect(words).not.toMatch(/\d/);
        expect(words).toContain(one ? ANCHOR_WORDS[one].label : 'not rated');
      }
    expect(sideBySideWords('each-time', 'each-time')).toBe('Both: seen each time.');
    expect(sideBySideWords('not-seen', null)).toBe('You: not seen; mentor: not rated.');
  });
});

describe('a half as it is sent', () => {
  const read = (fields: Record<string, string>) =>
    readReviewForm(Object.fromEntries(Object.entries(fields).map(([name, text]) => [name, [text]])), goal());

  it('keeps what was rated, and leaves out what was not', () => {
    expect(read({ 'rating:regrasp': 'each-time', 'rating:deep': '', saw: ' Flat. ' })).toEqual({
      form: { ratings: [{ checkpointId: 'regrasp', anchor: 'each-time' }], saw: 'Flat.' },
      errors: [],
      looksLike: [],
    });
  });

  it('is refused by field: nothing rated, an answer of its own, a time', () => {
    expect(read({}).errors).toEqual([{ field: 'rating:regrasp', message: 'Rate at least one checkpoint.' }]);
    expect(read({ 'rating:deep': 'excellent' }).errors[0]?.field).toBe('rating:deep');
    expect(read({ 'rating:deep': 'not-seen', saw: 'Took 40 s.' }).errors).toEqual([
      { field: 'saw', message: '"40 s" is a time, and times stay out of a review. Take it out.' },
    ]);
  });

  it('asks about what looks like a person until it is said to be nobody', () => {
    const named = { 'rating:deep': 'not-seen', saw: 'Dr Miller held the flap.' };
    expect(read(named).looksLike).toEqual(['"Dr Miller" looks like a name']);
    expect(read({ ...named, nobody: 'yes' }).looksLike).toEqual([]);
  });
});
