import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { planDraft, rules, type GivenReason, type Guidance, type StepFacts } from '../../../src/lib/rules';
import { draftReminders, planReasonWords } from '../../../src/lib/words';
import { guidance, pattern, reference, stepAudit } from './made-up-audit';

const facts = (more: Partial<StepFacts> = {}): StepFacts => ({
  step: stepAudit('rhexis', { first: { seconds: 0.05, spread: 0.05, reference: null } }),
  cases: 60,
  patterns: [],
  protectedParts: [],
  safety: { stepId: 'rhexis', seriousUnreviewed: 0, seriousLast100: 0, casesSinceLatest: null, kinds: [] },
  shorterFifthClean: null,
  shorterFifthMissed: [],
  takenOver: 0,
  twoToWatch: true,
  renewed: null,
  breakWeeks: null,
  waitingCases: 0,
  pair: null,
  ...more,
});
const withStep = (more: Parameters<typeof stepAudit>[1]) =>
  stepAudit('rhexis', { first: { seconds: 0.05, spread: 0.05, reference: null }, ...more });
const page = guidance('rhexis');
const LABELS: Record<string, string> = { rhexis: 'Rhexis', incision: 'Incision' };
const say = (reason: GivenReason) => planReasonWords(reason, (id) => LABELS[id] ?? id);
/** The draft as it is read: every reason in its words. */
const inWords = (given: ReturnType<typeof planDraft>) => ({
  ...given,
  reminders: draftReminders(given),
  checkpoints: given.checkpoints.map(({ id, because }) => ({ id, sentence: say(because) })),
  drills: given.drills.map(({ where, because }) => ({ where, because: say(because) })),
  earlierFirst: given.earlierFirst.map(({ stepId, because }) => ({ stepId, because: say(because) })),
  because: given.because.map((reason) => ({ id: reason.code, sentence: say(reason) })),
});
const draft = (more: Partial<StepFacts>) => inWords(planDraft(facts(more), page));
const fired = (more: Partial<StepFacts>) => draft(more).because.map(({ id }) => id);

describe('each rule', () => {
  it('has an id of its own and says nothing of an unremarkable step', () => {
    expect(new Set(rules.map(({ id }) => id)).size).toBe(rules.length);
    const plain = draft({});
    expect(plain.because).toEqual([]);
    expect(plain.checkpoints).toHaveLength(3);
    expect(plain.checkpoints[0]?.sentence).toBe('Worth a look in any rhexis.');
    expect(plain.measures).toEqual(['time', 'steadiness', 'checkpoints']);
  });

  it('longer: against the reference set or by seconds, and certain eyes do not silence it', () => {
    const longer = { step: withStep({ reference: reference(1.8) }) };
    expect(draft(longer).because).toEqual([
      {
        id: 'longer',
        sentence:
          'Rhexis takes about 1.8 times as long as in the reference set (1.5 to 2.1; 24 cases of 2 other surgeons). Compare a shorter and a longer case.',
      },
    ]);
    expect(draft(longer).checkpoints[0]?.id).toBe('rhexis-longer');
    expect(fired({ step: withStep({ first: { seconds: 0.8, spread: 0, reference: null } }) })).toEqual(['longer']);
    expect(fired({ ...longer, patterns: [pattern('rhexis')] })).toEqual(['certain-eyes', 'longer']);
  });

  it('certain-eyes: a check that would be wrong in these eyes is not given because of them', () => {
    const polar = { factor: 'polar-or-plaque=true', label: 'polar cataract or plaque' };
    const [hard, ...rest] = page.checkpoints.filter(({ fits }) => fits.includes('hard-eyes'));
    if (!hard) throw new Error('the page has a checkpoint for hard eyes');
    expect(rest).toEqual([]);
    const wrong = {
      ...page,
      checkpoints: page.checkpoints.map((each) => ({
        ...each,
        notFor: [...each.notFor, ...(each === hard ? (['eye:polar-or-plaque'] as const) : [])],
      })),
    };
    const given = (with_: Guidance, factor: string) =>
      planDraft(facts({ patterns: [pattern('rhexis', { ...polar, factor })] }), with_)
        .checkpoints.filter(({ because }) => because.code === 'certain-eyes')
        .map(({ id }) => id);
    expect(given(page, polar.factor)).toEqual([hard.id]);
    expect(given(wrong, polar.factor)).toEqual([]);
    expect(given(wrong, 'nucleus=hard')).toEqual([hard.id]);
  });

  it('certain-eyes: prepare for them, steadiness first', () => {
    const result = draft({ patterns: [pattern('rhexis')] });
    expect(result.because[0]?.sentence).toBe(
      'Rhexis takes about 1.4 times as long (1.2 to 1.7) with nucleus hard (9 eyes). Longer in these eyes is expected.',
    );
    expect(result.measures[0]).toBe('steadiness');
    expect(result.checkpoints[0]?.id).toBe('rhexis-hard-eyes');
    expect(result.reminders).toHaveLength(3);
    expect(fired({ patterns: [pattern('rhexis', { factor: 'list-machine=x' })] })).toEqual(['circumstances']);
    expect(fired({ patterns: [pattern('rhexis', { ratio: 0.7 })] })).toEqual([]);
  });

  it('circumstances: teaching, machine and anaesthesia reach a rule, and none is taken for a kind of eye', () => {
    for (const [factor, label] of [
      ['list-teaching=yes', 'teaching lists'],
      ['list-machine=B', 'machine: B'],
      ['list-anaesthesia=topical', 'anaesthesia: topical'],
    ] as const) {
      const given = draft({ patterns: [pattern('rhexis', { factor, label })] });
      expect(given.because.map(({ id }) => id)).toEqual(['circumstances']);
      expect(given.because[0]?.sentence).toContain(label);
    }
  });

  it('varies: only while nothing is known to be left out in the shortest fifth', () => {
    const step = withStep({ spread: 1.5, twoThirds: { low: 40, high: 90 } });
    expect(draft({ step, shorterFifthClean: true }).because[0]?.sentence).toBe(
      'Rhexis varies (two thirds of cases between 40\u00A0s and 1\u00A0min\u00A030\u00A0s), and the shortest fifth of your cases had no event and every protected part seen. What differs in the set-up?',
    );
    expect(draft({ step }).because[0]?.sentence).toContain('is not known: look at that first');
    expect(fired({ step, shorterFifthClean: false })).toEqual(['hasty']);
    expect(fired({ step: withStep({ spread: 1.3 }), shorterFifthClean: true })).toEqual([]);
  });

  it('returned-to: from one case in five', () => {
    const result = draft({ step: withStep({ returnedTo: { cases: 40, of: 100, perCase: 0.4 } }) });
    expect(result.because[0]).toEqual({
      id: 'returned-to',
      sentence: 'Rhexis was returned to in 40 of 100 cases: the end point was often not reached the first time.',
    });
    expect(result.checkpoints[0]?.id).toBe('rhexis-returned-to');
    expect(fired({ step: withStep({ returnedTo: { cases: 19, of: 100, perCase: 0.19 } }) })).toEqual([]);
    expect(fired({ step: withStep({ returnedTo: null }) })).toEqual([]);
  });

  it('late-in-list and first-on-list are two things, and neither asks to read in theatre', () => {
    const first = draft({ patterns: [pattern('rhexis', { kind: 'place', factor: 'place-first' })] });
    expect(first.because.map(({ id, sentence }) => [id, sentence])).toEqual([
      ['first-on-list', 'As the first on the list, rhexis takes about 1.4 times as long (1.2 to 1.7).'],
    ]);
    const result = draft({
      patterns: [pattern('rhexis', { kind: 'place', factor: 'place-last-third', label: 'last third of the list' })],
    });
    for (const line of [...first.reminders, ...result.reminders]) expect(line).not.toMatch(/\bpause\b/);
    expect(result.because[0]).toEqual({
      id: 'late-in-list',
      sentence: 'In the last third of the list, rhexis takes about 1.4 times as long (1.2 to 1.7).',
    });
    expect(result.checkpoints[0]?.id).toBe('rhexis-late-in-list');
  });

  it('after-earlier: points to the earlier step first and says it is an association', () => {
    const result = draft({
      patterns: [
        pattern('rhexis', {
          kind: 'earlier-step',
          factor: 'after-incision',
          label: 'after a long incision',
          earlierStepId: 'incision',
        }),
      ],
    });
    expect(result.because[0]?.id).toBe('after-earlier');
    expect(result.earlierFirst).toEqual([
      {
        stepId: 'incision',
        because:
          'After a long incision, rhexis takes about 1.4 times as long (1.2 to 1.7). The two go together; this does not show that one causes the other. Look at incision first.',
      },
    ]);
    expect(draft({}).earlierFirst).toEqual([]);
  });

  it('mostly-waiting: by reason only, and not from fewer than ten cases', () => {
    const step = withStep({ waitingPerCase: 30, waitingReason: 'lens loading' });
    const result = draft({ step, waitingCases: 25 });
    expect(result.because[0]).toEqual({
      id: 'mostly-waiting',
      sentence:
        'Waiting at rhexis takes 30\u00A0s a case, most of it lens loading (noted in 25 cases): a matter for the team.',
    });
    expect(result.reminders).toContain('Waiting is not a fault, and part of it is checking.');
    expect(fired({ step, waitingCases: 9 })).toEqual([]);
  });

  it('over-time: asks what changed where the step page calls it clear, and nowhere else', () => {
    const trend = (more: object) =>
      pattern('rhexis', {
        kind: 'over-time',
        factor: 'over-time',
        label: 'from the first to the latest of these 48 cases',
        ...more,
      });
    const result = draft({ patterns: [trend({ ratio: 1.3, low: 1.1, high: 1.6 })] });
    expect(result.because[0]?.id).toBe('over-time');
    expect(result.because[0]?.sentence).toBe(
      'Rhexis has been taking longer over time: about 1.3 times as long (1.1 to 1.6) from the first to the latest of these 48 cases. What changed: machine, technique, teaching?',
    );
    expect(fired({ patterns: [trend({ ratio: 0.9, low: 0.8, high: 0.99 })] })).toEqual([]);
    // A slope of its own is not clear; nor is a change that would be printed as "1 times as long".
    expect(fired({ step: withStep({ overTime: { ratio: 1.1, low: 1.03, high: 1.2 } }) })).toEqual([]);
    expect(fired({ patterns: [trend({ ratio: 1.003, low: 1.001, high: 1.005 })] })).toEqual([]);
  });

  it('bimodality: choose deliberately', () => {
    const humps = pattern('rhexis', {
      kind: 'bimodality',
      factor: 'bimodality',
      label: 'two groups of times, about 45\u00A0s and about 80\u00A0s',
      ratio: 1.8,
    });
    expect(draft({ patterns: [humps] }).because[0]).toEqual({
      id: 'bimodality',
      sentence:
        'Rhexis shows two groups of times, about 45\u00A0s and about 80\u00A0s: perhaps two techniques are in use. Choose between them deliberately.',
    });
  });

  it('event: a safety goal, a senior colleague, no time', () => {
    const safety = { stepId: 'rhexis', seriousUnreviewed: 1, seriousLast100: 1, casesSinceLatest: 2, kinds: [] };
    const result = draft({ safety, step: withStep({ reference: reference(2) }) });
    expect(result.measures).toEqual(['safety']);
    expect(result.because[0]?.id).toBe('event');
    expect(result.reminders.some((line) => line.includes('senior colleague'))).toBe(true);
    expect(draft({ safety: { ...safety, seriousUnreviewed: 0, seriousLast100: 2 } }).measures).toEqual(['safety']);
  });

  it('event-recent: no time for forty cases', () => {
    const safety = { stepId: 'rhexis', seriousUnreviewed: 0, seriousLast100: 1, casesSinceLatest: 12, kinds: [] };
    expect(draft({ safety }).measures).toEqual(['checkpoints', 'safety', 'steadiness']);
    expect(draft({ safety: { ...safety, casesSinceLatest: 40, kinds: [] } }).measures).toContain('time');
  });

  it('not-to-shorten: says so, steadiness at most', () => {
    const result = draft({ step: withStep({ notToShorten: true }) });
    expect(result.measures).toEqual(['steadiness', 'checkpoints']);
    expect(result.because[0]?.sentence).toBe(
      'Rhexis is not to be shortened. You can look at doing it the same way each time.',
    );
  });

  it('protected-parts: seen less often come first and are watched first', () => {
    const protectedParts = [
      { id: 'pause', label: 'Pause', seen: 20, looked: 20 },
      { id: 'refill', label: 'Refill', seen: 12, looked: 20 },
    ];
    const result = draft({ protectedParts, step: withStep({ hasProtectedParts: true, reference: reference(2) }) });
    expect(result.because.map(({ id }) => id)).toEqual(['protected-parts', 'longer']);
    expect(result.because[0]?.sentence).toBe('Refill: seen in 12 of 20 cases. These come first.');
    expect(result.checkpoints.map(({ id }) => id)).toEqual([
      'rhexis-protected-parts',
      'rhexis-longer',
      'rhexis-varies',
    ]);
    expect(result.watch).toEqual(['refill']);
    expect(
      draft({ protectedParts: protectedParts.slice(0, 1), step: withStep({ hasProtectedParts: true }) }).watch,
    ).toEqual(['pause']);
  });
});

/** A page whose checkpoints name eyes, events and parts, last on it: what is named has to overtake what is general. */
const seeing: Guidance = {
  ...page,
  checkpoints: [
    ...page.checkpoints,
    ...(['eye:pupil:small', 'event:wound-burn', 'event:iris-prolapse', 'part:refill'] as const).map((fit) => ({
      id: fit,
      look: `Look at ${fit}.`,
      why: 'Because.',
      fits: [fit],
      notFor: [],
    })),
  ],
};
const firstOn = (more: Partial<StepFacts>) => planDraft(facts(more), seeing).checkpoints[0]?.id;

describe('what the record names', () => {
  it('a kind of eye at its level comes before hard eyes in general, and another level does not', () => {
    expect(firstOn({ patterns: [pattern('rhexis', { factor: 'pupil=small' })] })).toBe('eye:pupil:small');
    expect(firstOn({ patterns: [pattern('rhexis', { factor: 'pupil=medium+small' })] })).toBe('eye:pupil:small');
    expect(firstOn({ patterns: [pattern('rhexis', { factor: 'pupil=medium' })] })).toBe('rhexis-hard-eyes');
  });

  it('an event leads to the checkpoint for its kind, the first kind first', () => {
    const safety = (kinds: string[], seriousUnreviewed = 1) => ({
      safety: { stepId: 'rhexis', seriousUnreviewed, seriousLast100: 1, casesSinceLatest: 2, kinds },
    });
    expect(firstOn(safety(['wound-burn']))).toBe('event:wound-burn');
    expect(firstOn(safety(['iris-prolapse', 'wound-burn']))).toBe('event:iris-prolapse');
    expect(firstOn(safety(['wound-burn'], 0))).toBe('event:wound-burn');
    expect(firstOn(safety(['wrong-lens']))).toBe('rhexis-protected-parts');
  });

  it('a missed protected part leads to its own checkpoint, and one always seen does not', () => {
    const protectedParts = (seen: number) => [{ id: 'refill', label: 'Refill', seen, looked: 20 }];
    expect(firstOn({ protectedParts: protectedParts(12) })).toBe('part:refill');
    expect(firstOn({ protectedParts: protectedParts(20) })).not.toBe('part:refill');
  });
});

describe('a goal aimed at certain eyes', () => {
  it('has its reason in these eyes, and in no others', () => {
    const patterns = [
      pattern('rhexis', { factor: 'nucleus=very-hard', label: 'nucleus very hard', ratio: 1.7 }),
      pattern('rhexis', { factor: 'nucleus=hard', label: 'nucleus hard', ratio: 1.5 }),
    ];
    const aimedAt = (level: string) =>
      planDraft(facts({ patterns }), page, { fact: 'nucleus', level, label: `nucleus ${level}` }).because;
    expect(aimedAt('hard')).toMatchObject([{ code: 'certain-eyes', label: 'nucleus hard', numbers: { ratio: 1.5 } }]);
    expect(aimedAt('soft')).toEqual([]);
  });
});

describe('what goes with haste, hands and pauses', () => {
  it('hasty: comes before everything but an event, and is said', () => {
    const step = withStep({ reference: reference(2), returnedTo: { cases: 50, of: 100, perCase: 0.5 } });
    const shorterFifthMissed = [{ code: 'F103', event: false, notSeen: ['Chamber refill'] }];
    const result = draft({ step, shorterFifthClean: false, shorterFifthMissed });
    expect(result.because[0]).toEqual({
      id: 'hasty',
      sentence:
        'Among the shortest fifth of your cases at rhexis: F103 (chamber refill not seen). Look at it before anything else here.',
    });
    const seven = Array.from({ length: 7 }, (_, at) => ({ code: `F${at}`, event: at === 0, notSeen: ['Pause'] }));
    expect(draft({ shorterFifthClean: false, shorterFifthMissed: seven }).because[0]?.sentence).toBe(
      'Among the shortest fifth of your cases at rhexis: F0 (an event; pause not seen), F1 (pause not seen), F2 (pause not seen), F3 (pause not seen), F4 (pause not seen) and 2 more. Look at them before anything else here.',
    );
    expect(result.measures[0]).toBe('checkpoints');
    expect(fired({ step, shorterFifthClean: null })).not.toContain('hasty');
  });

  it('taken-over: from two cases', () => {
    expect(draft({ takenOver: 2 }).because[0]?.sentence).toContain('Rhexis was taken over in 2 of 60 cases.');
    expect(fired({ takenOver: 1 })).toEqual([]);
  });

  it('after-a-break: from eight weeks before the latest list', () => {
    expect(draft({ breakWeeks: 9 }).because[0]?.sentence).toContain('came 9 weeks after the one before it');
    expect(fired({ breakWeeks: 7 })).toEqual([]);
  });

  it('renewed: a fill returned to again and again points to itself first', () => {
    expect(draft({ renewed: { stepId: 'incision', cases: 60, of: 100, perCase: 0.6 } }).because[0]?.sentence).toBe(
      'Incision was returned to in 60 of 100 cases, and rhexis builds on it. Look there first.',
    );
  });
});

describe('the draft', () => {
  it('puts causes before descriptions and settles ties by strength, then id', () => {
    const step = withStep({ returnedTo: { cases: 50, of: 100, perCase: 0.5 }, spread: 1.5, reference: reference(2) });
    expect(fired({ step, patterns: [pattern('rhexis', { kind: 'place', factor: 'place-first' })] })).toEqual([
      'returned-to',
      'first-on-list',
      'varies',
      'longer',
    ]);
  });

  it('names the two recordings at the video drill', () => {
    const result = draft({ pair: { shorter: 'V12', longer: 'V31' } });
    expect(result.pair).toEqual({ shorter: 'V12', longer: 'V31' });
    expect(result.drills.find(({ where }) => where === 'video')?.because).toBe(
      'V12 was shorter and V31 longer: watch these two.',
    );
  });

  it('has a stop sign and a drill off the patient for a page still empty', () => {
    const empty = planDraft(facts(), guidance('rhexis', { checkpoints: [], reminders: [], stop: [], drills: [] }));
    expect(empty.checkpoints).toEqual([]);
    expect(empty.stop).toHaveLength(1);
    expect(empty.drills.map(({ where }) => where)).toEqual(['video']);
  });
});

const anyPattern = fc.record({
  kind: fc.constantFrom('fact', 'place', 'waiting-before', 'returned-to', 'earlier-step', 'over-time', 'bimodality'),
  ratio: fc.double({ min: 0.5, max: 3, noNaN: true }),
});
const share = fc.option(fc.double({ min: 0, max: 1, noNaN: true }), { nil: null });
const anyFacts = fc
  .record({
    notToShorten: fc.boolean(),
    kept: fc.array(fc.record({ seen: fc.nat(20), more: fc.nat(20) }), { maxLength: 3 }),
    known: fc.boolean(),
    spread: fc.option(fc.double({ min: 1, max: 3, noNaN: true }), { nil: null }),
    seconds: share,
    returns: share,
    ratio: fc.option(fc.double({ min: 0.5, max: 4, noNaN: true }), { nil: null }),
    patterns: fc.array(anyPattern, { maxLength: 5 }),
    seriousUnreviewed: fc.nat(2),
    seriousLast100: fc.nat(3),
    casesSinceLatest: fc.option(fc.nat(100), { nil: null }),
    clean: fc.constantFrom(true, false, null),
    waitingPerCase: fc.nat(100),
    waitingCases: fc.nat(40),
  })
  .map((given): StepFacts =>
    facts({
      step: withStep({
        notToShorten: given.notToShorten,
        hasProtectedParts: given.kept.length > 0,
        median: given.known ? 60 : null,
        spread: given.spread,
        twoThirds: null,
        returnedTo: { cases: (given.returns ?? 0) * 100, of: 100, perCase: given.returns ?? 0 },
        waitingPerCase: given.waitingPerCase,
        reference: given.ratio === null ? null : reference(given.ratio),
        first: { seconds: given.seconds, spread: given.seconds, reference: given.seconds },
      }),
      protectedParts: given.kept.map(({ seen, more }, place) => ({
        id: `kept-${place}`,
        label: `Kept ${place}`,
        seen,
        looked: seen + more,
      })),
      patterns: given.patterns.map(({ kind, ratio }, place) =>
        pattern('rhexis', {
          kind,
          ratio,
          factor: `f${place}`,
          earlierStepId: kind === 'earlier-step' ? 'incision' : null,
        }),
      ),
      safety: {
        stepId: 'rhexis',
        seriousUnreviewed: given.seriousUnreviewed,
        seriousLast100: given.seriousLast100,
        casesSinceLatest: given.casesSinceLatest,
        kinds: [],
      },
      shorterFifthClean: given.clean,
      waitingCases: given.waitingCases,
    }),
  );
const anyPage = fc
  .record({ checkpoints: fc.nat(7), stop: fc.nat(2), drills: fc.nat(2), reminders: fc.nat(2) })
  .map((keep): Guidance => ({
    ...page,
    checkpoints: page.checkpoints.slice(0, keep.checkpoints),
    stop: page.stop.slice(0, keep.stop),
    drills: page.drills.slice(0, keep.drills),
    reminders: page.reminders.slice(0, keep.reminders),
  }));

describe('whatever the audit', () => {
  it('a draft keeps its promises', () => {
    fc.assert(
      fc.property(anyFacts, anyPage, (given, pageGiven) => {
        const draftGiven = planDraft(given, pageGiven);
        const result = inWords(draftGiven);
        expect(result.checkpoints.length).toBeLessThanOrEqual(3);
        expect(new Set(result.checkpoints.map(({ id }) => id)).size).toBe(result.checkpoints.length);
        expect(result.checkpoints.length).toBe(Math.min(3, pageGiven.checkpoints.length));
        expect(result.stop.length).toBeGreaterThanOrEqual(1);
        expect(result.drills.length).toBeGreaterThanOrEqual(1);
        for (const { where } of result.drills) expect(['wet lab', 'simulation eye', 'video', 'desk']).toContain(where);
        expect(result.measures.length).toBeGreaterThanOrEqual(1);
        const safetyGoal = given.safety.seriousUnreviewed > 0 || given.safety.seriousLast100 >= 2;
        if (safetyGoal) expect(result.measures).toEqual(['safety']);
        if (safetyGoal || given.step.notToShorten) expect(result.measures).not.toContain('time');
        if (given.step.hasProtectedParts) expect(result.watch.length).toBeGreaterThanOrEqual(1);
        for (const { because } of result.earlierFirst)
          expect(because).toContain('does not show that one causes the other');
        expect(JSON.stringify(result)).not.toMatch(/NaN|undefined|Infinity/);
        expect(planDraft(given, pageGiven)).toEqual(draftGiven);
      }),
      { numRuns: 500, seed: 4 },
    );
  });
});
