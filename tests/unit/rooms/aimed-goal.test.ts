import { describe, expect, it } from 'vitest';
import { SAME_REASON } from '../../../src/lib/words';
import { aimedEyesOf, auditOf, pairOf } from '../../../src/lib/audit';
import type { ListRecord, SurgeonRecord } from '../../../src/lib/model';
import { startGoal } from '../../../src/lib/practice';
import { afterView } from '../../../src/lib/rooms/after-twenty/after-view';
import { noteViews } from '../../../src/lib/rooms/before-a-list/note-view';
import { chooseView } from '../../../src/lib/rooms/choose/choose-view';
import { goalReading } from '../../../src/lib/rooms/goals/goal-reading';
import { nowView } from '../../../src/lib/rooms/now/now-view';
import { goalView } from '../../../src/lib/rooms/plan/goal-view';
import { newGoal } from '../../../src/lib/rooms/plan/new-goal';
import { planSource } from '../../../src/lib/rooms/plan/plan-source';
import { planView } from '../../../src/lib/rooms/plan/plan-view';
import { goalReport } from '../../../src/lib/rooms/report/goal-report';
import { pairEyesOf, suggestionOf } from '../../../src/lib/rules';
import { safetyFactsFor } from '../../../src/lib/assess/suggest';
import { smallPupils, twelveLists, withPupils } from '../audit/small-pupils';
import { goalAfter, listsFor, month, operation } from '../../made-up/month';
import { aRecord } from '../../made-up/record';
import { withResult } from '../../made-up/read-month';
import { goalOn } from '../../made-up/goal-on';

const eyes = aimedEyesOf(operation, 'dense', 'yes')!;
const FROM = 120;

function recordOf(count: number, lists?: readonly ListRecord[]): SurgeonRecord {
  const cases = month(count, { from: FROM, change: Math.log(0.7) });
  const { baseline } = goalOn(cases, { from: FROM + 1, eyes });
  const goal = goalAfter(FROM, { eyes, baseline, chosenBy: 'eyes' });
  return aRecord({ procedures: [operation], cases, lists: [...(lists ?? listsFor(cases))], goals: [goal] });
}

const after = (record: SurgeonRecord) =>
  afterView({ state: goalReading(record, record.goals[0]!), record, lasting: [], series: null, signal: 'Talk.' });

describe('a goal aimed at certain eyes, in the rooms', () => {
  const short = recordOf(140);

  it('is named with its eyes on Now, on the note, on its plan and in the report', () => {
    expect(nowView(short, null).head).toContain('Practised (dense): ');
    const [note] = noteViews(short.goals, short.procedures, {
      standing: [],
      foot: [],
      generalLead: '',
      generalPoints: [],
      rupture: [],
    });
    expect(note).toMatchObject({
      title: 'Practised (dense)',
      lead: 'For eyes with dense. In other eyes operate as before.',
    });
    const plan = goalView(short.goals[0]!, short);
    expect(plan.step).toBe('Practised (dense)');
    expect(plan.rows.find(({ label }) => label === 'Aimed at')?.lines).toEqual([
      'eyes with dense: no other case counts',
    ]);
    const reading = goalReading(short, short.goals[0]!);
    expect(goalReport(reading, { ...short, cautions: [] } as never, [], []).title).toBe(
      'Practised (dense): one practice goal',
    );
  });

  it('hides the times of such eyes only, and counts them', () => {
    expect(after(short).count).toMatch(/of 20/);
    expect(goalReading(short, short.goals[0]!).window.running.length).toBeLessThan(20);
  });

  it('says beside its result what it rests on, and what became of the other eyes', () => {
    const { time } = after(withResult(recordOf(230)));
    if (time.kind !== 'result') throw new Error(time.kind);
    expect(time.result.sentences[0]).toContain('Practised (dense) took about');
    const beside = time.result.beside.join(' ');
    expect(beside).toContain('Only eyes with dense are in this result. How severe these eyes are is not recorded');
    expect(beside).toContain('In the other eyes of the same time the step took about');
  });

  it('says that its fact was retired, and that a year went by without a full window', () => {
    const retired = { ...short, procedures: [{ ...operation, facts: [] }] };
    const words = 'The fact behind "dense" is no longer asked for in this procedure';
    expect(nowView(retired, null).rest).toContain(words);
    expect(after(retired).notices.join(' ')).toContain(words);
    expect(nowView(short, null).rest).not.toContain(words);

    const dated = (day: string) =>
      recordOf(
        140,
        listsFor(month(140)).map((list) => ({ ...list, when: { kind: 'date', date: day } })),
      );
    const late = 'More than a year after the goal was set';
    expect(nowView(dated('2027-06-02'), null).rest).toMatch(
      new RegExp(`${late}, \\d+ of 20 cases with dense have come`),
    );
    expect(after(dated('2027-06-02')).notices.join(' ')).toContain(late);
    expect(nowView(dated('2027-05-30'), null).rest).not.toContain(late);
  });
});

describe('the plan of a goal aimed at certain eyes', () => {
  const cases = smallPupils(2.5);
  const record = aRecord({ procedures: [withPupils], cases, lists: twelveLists });
  const audit = auditOf({ cases, lists: twelveLists, procedure: withPupils, references: [], seed: 1, resamples: 200 });
  const source = (asked: ReturnType<typeof aimedEyesOf>, ownReason: string | null = null) =>
    planSource(
      {
        audit,
        record,
        procedure: withPupils,
        cases,
        stepId: 'capsulorhexis',
        guidance: null,
        eyes: asked,
        view: null,
        ownReason,
        query: '',
      },
      { start: async (input) => startGoal({ ...input, resamples: 50 }), pause: async () => {} },
    );
  const pupils = aimedEyesOf(withPupils, 'small-pupil', 'true');

  it('is where the suggestion leads, with the fact filled in', () => {
    const suggestion = suggestionOf(audit, safetyFactsFor(audit, record));
    const view = chooseView(audit, suggestion, 'seconds', { heldBack: 0, procedure: null });
    const query = new URL(`http://x${view.aim?.href}`).searchParams;
    expect(query.get('step')).toBe('capsulorhexis');
    const [fact = '', level = ''] = query.get('eyes')?.split(':') ?? [];
    expect(aimedEyesOf(withPupils, fact, level)).toEqual(pupils);
  });

  it('offers only the checkpoints below twenty such cases, and says how many are missing', async () => {
    const plan = planView((await source(pupils))!);
    expect(plan.step.label).toBe('Capsulorhexis (small-pupil)');
    expect(plan.measures.map(({ id }) => id)).toEqual(['checkpoints']);
    expect(plan.cannotMeasure).toContain('17 cases count for this step with small-pupil; a goal on its time needs 20.');
    expect(plan.aimed.join(' ')).toContain('Safety is asked of every case in that time.');
  });

  it('says how long a window takes, keeps the eyes in the goal, and whence it was chosen', async () => {
    const many = (await source({ ...pupils!, level: 'no', label: 'no small pupil' }))!;
    const plan = planView(many);
    expect(plan.start.join(' ')).toMatch(
      /Of the 47 cases counted since the first baseline case, 31 had no small pupil\. At this rate the next (twenty|forty)/,
    );
    const started = many.started;
    if (started.kind !== 'start') throw new Error('cannot');
    const choices = {
      checkpoints: [],
      measure: 'time',
      watch: [],
      windowLength: 20,
      ifThen: null,
      agreed: { answer: 'none', why: null },
      reason: null,
    } as const;
    const goal = newGoal(
      many,
      { ...choices, checkpoints: [], watch: [] },
      started.baseline,
      cases,
      '2026-06-01T10:00:00Z',
    );
    expect(goal.eyes).toEqual({ fact: 'small-pupil', level: 'no', label: 'no small pupil' });
    expect((await source(pupils))!.chosenBy).toBe('eyes');
    expect((await source(pupils, 'my own'))!.chosenBy).toBe('own');
  });

  it('names the pair that the page of the step shows', async () => {
    const [within, lists, stepId] = [pairEyesOf(audit, 'capsulorhexis'), twelveLists, 'capsulorhexis'];
    const pair = pairOf({ cases, lists, procedure: withPupils, stepId, within });
    if (!within || pair.kind !== 'pair') throw new Error('no pair in small pupils');
    expect(JSON.stringify(planView((await source(null))!))).toContain(
      `${pair.shorter.code} was shorter and ${pair.longer.code} longer: watch these two.`,
    );
  });

  it('gives a reason in full once, and opens what was not drawn up by words that count it', async () => {
    const many = (await source(null))!;
    const [first, second] = [
      { code: 'hasty', cases: [{ code: 'V7', event: true, notSeen: [] }], numbers: {} },
      { code: 'off-the-patient', numbers: {} },
    ] as never[];
    const drawn = (id: string, because: never) => ({ id, look: `${id}.`, why: 'Why.', because });
    const checkpoints = [drawn('one', first!), drawn('two', second!), drawn('three', first!)] as never;
    const guidance = { checkpoints: ['one', 'two', 'three', 'four', 'five'].map((id) => ({ id, look: id, why: '' })) };
    const plan = planView({ ...many, guidance: guidance as never, draft: { ...many.draft, checkpoints } });
    expect(plan.checkpoints.map(({ because }) => because === SAME_REASON)).toEqual([false, false, true, false, false]);
    expect(plan.checkpoints[0]?.because).toMatch(/\S/);
    expect([plan.atLength, plan.more]).toEqual([3, '2 more checkpoints, or one of your own']);
  });

  it('says why cases from before a change under an earlier goal are not among the baseline cases', async () => {
    const one = (await source(null))!;
    const before = /No case before F081 is among them/;
    expect(planView({ ...one, since: 'F081' }).start.join(' ')).toMatch(before);
    expect(planView(one).start.join(' ')).not.toMatch(/No case before/);
  });

  it('offers the kinds of eye a goal could be aimed at', async () => {
    const plan = planView((await source(null))!);
    expect(plan.aims).toEqual([{ label: 'small-pupil (17 cases)', eyes: 'small-pupil:yes' }]);
    expect(plan.aimed).toEqual([]);
  });
});
