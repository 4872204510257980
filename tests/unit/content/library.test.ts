import { describe, expect, it } from 'vitest';
import {
  loadCautions,
  loadGuidance,
  loadMethodPages,
  loadProcedures,
  renderMarkdown,
  renderShortRead,
} from '../../../src/lib/server/content';
import { durationIn } from '../../../src/lib/words/note-durations';
import { DURATION, FORBIDDEN, PRACTISE } from './forbidden';

describe('what ships', () => {
  it('loads whole', () => {
    expect(loadProcedures().map(({ id }) => id)).toEqual(['phaco', 'sics']);
    expect(loadGuidance().length).toBeGreaterThan(0);
    expect(Object.keys(loadCautions()).length).toBeGreaterThan(0);
    expect(Array.isArray(loadMethodPages())).toBe(true);
  });

  it('is one frozen copy, so no room can change what another shows', () => {
    expect(loadGuidance()).toBe(loadGuidance());
    expect(() => loadGuidance().pop()).toThrow(TypeError);
    expect(Object.isFrozen(loadProcedures()[0]?.steps[0]?.earlier)).toBe(true);
    expect(Object.isFrozen(loadCautions().standing.paragraphs)).toBe(true);
  });

  it('renders every short read and every method page without a stray bracket', () => {
    for (const { body } of [...loadGuidance(), ...loadMethodPages()])
      expect(renderMarkdown(body)).not.toContain('&lt;');
    for (const { body } of loadGuidance()) expect(renderShortRead(body)).not.toMatch(/\[[cpm]\d?\]/);
  });
});

describe('standing texts', () => {
  const cautions = loadCautions();

  // These sentences carry a duty or a limit: whoever changes one changes this test in the same commit, on purpose.
  it.each([
    [
      'standing',
      0,
      'Use after surgery, never in theatre. A shorter time is not a better operation, and a few cases cannot show that anything is safe.',
    ],
    [
      'standing',
      1,
      'Local protocol, supervisor and product instructions come first. Not a medical device; not for judging or ranking anyone.',
    ],
    ['note-for-the-list', 0, 'Not the team brief.'],
    [
      'reflection',
      0,
      "Write what you learned, not what happened: facts belong in the notes and in your unit's own reporting. No dates, names, ages or rare diagnoses. This note is yours, but a court or employer may be able to ask for it.",
    ],
    ['event-field', 0, 'Writing an event down never deletes a result; a serious one holds it until it is reviewed.'],
    ['event-prompts', 0, 'This page replaces none of these.'],
    [
      'keep-as-it-is',
      0,
      'If a complaint, claim or inquiry concerns this case, do not change or delete anything here before you have advice (defence organisation, employer).',
    ],
    [
      'codes',
      0,
      'Codes are not anonymity: together with the theatre list, date and position show who the patient was. Treat this folder as patient-related.',
    ],
    [
      'recording-consent',
      0,
      "Recordings may be reviewed here only if your unit's rules and the patient's consent for recording allow it, including for learning.",
    ],
    [
      'responsible',
      0,
      'In many places your employer, not you, decides whether such a record may be kept on your own computer. Ask before you start. Private practice: you are responsible yourself.',
    ],
    ['monitor-signal', 0, 'Talk to your supervisor or clinical lead before your next list. The goal is paused.'],
    [
      'capsule-rupture',
      0,
      'If the capsule ruptures or vitreous shows, then I hold still, keep irrigating, stop aspirating, inject OVD through the side port, only then withdraw, and call for help.',
    ],
    ['waiting', 0, 'Waiting is not a fault, and part of it is checking.'],
  ] as const)('%s, paragraph %i, stands as agreed', (name, paragraph, text) => {
    expect(cautions[name].paragraphs[paragraph]).toBe(text);
  });

  it('says on every page of guidance that local protocol comes first and that the text awaits review', () => {
    const text = cautions['guidance-page'].paragraphs.join(' ');
    expect(text).toContain('local protocol');
    expect(text).toContain('awaits review by a practising surgeon');
  });

  it('has three things on the general note, without a time in any of them', () => {
    const points = [...cautions['general-note'].points, ...cautions['capsule-rupture'].paragraphs];
    expect(points).toHaveLength(3);
    for (const point of points) {
      expect(point).not.toMatch(DURATION);
      expect(durationIn(point)).toBeNull();
      expect(point).not.toMatch(PRACTISE);
    }
  });

  it('asks three things about an event and keeps no answer', () => {
    expect(cautions['event-prompts'].points).toEqual([
      'Is this in the operation note?',
      'Reported as your unit requires?',
      'Has the patient been told, as your rules require?',
    ]);
  });

  it.each(FORBIDDEN)('hold nothing that $why', ({ pattern }) => {
    for (const { title, points, paragraphs } of Object.values(cautions))
      for (const text of [title, ...points, ...paragraphs]) expect(text).not.toMatch(pattern);
  });
});
