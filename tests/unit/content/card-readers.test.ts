import { describe, expect, it } from 'vitest';
import { ContentError } from '../../../src/lib/server/content/content-error';
import { readEyeCards } from '../../../src/lib/server/content/eye-cards';
import { readGuidance } from '../../../src/lib/server/content/guidance';
import { readProcedures } from '../../../src/lib/server/content/procedures';
import { readRehearsals } from '../../../src/lib/server/content/rehearsals';

const PROCEDURE = `id: graft
name: Graft
steps:
  - { id: suture, label: Suture, starts: a, ends: b, synonyms: [], earlier: [], optional: false, notToShorten: false, protectedParts: [] }
  - { id: trephine, label: Trephine, starts: a, ends: b, synonyms: [], earlier: [], optional: false, notToShorten: false, protectedParts: [] }
facts: [{ id: pupil, label: Pupil, kind: choice, levels: [{ id: small, label: small, key: S }] }, { id: toric, label: Toric, kind: yes-no }]
waitingReasons: []
eventKinds: [{ id: leak, label: leak }]
`;
const procedures = readProcedures({ 'content/procedures/graft.yaml': PROCEDURE });

const PAGE = `---
step: suture
title: Suture
aim: The graft is held all round.
protectedParts: [the leak check]
checkpoints:
${['a', 'b', 'c', 'd', 'e'].map((id) => `  - { id: ${id}, look: The edge is seen., why: A hidden edge tears., fits: [longer]${id === 'a' ? ", notFor: ['eye:toric']" : ''} }`).join('\n')}
reminders: [One., Two.]
stop: [The chamber shallows.]
earlier: []
drills:
  - { id: d1, where: wet lab, minutes: 15, do: Ten sutures., passed: Three hold. }
  - { id: d2, where: desk, minutes: 5, do: Draw the order., passed: Three from memory. }
sources: [{ mark: c, kind: common-practice }]
reviewed: null
---
Read this.`;
const guidance = readGuidance({ 'content/checkpoints/graft/10-suture.md': PAGE }, procedures);

const CARD = `---
id: toric
title: Toric
procedures: [graft]
eyes: ['eye:toric']
ready: [A second lens.]
checkpoints:
  - { id: t1, look: 'The marks are seen [p1].', why: The eye rolls. }
  - { id: t2, look: The lens is short of its axis., why: It turns one way. }
never: Do not turn it backwards.
stop: The rim is torn.
overrides: [a]
sources: [{ mark: p1, kind: published, ref: A journal 2020 }]
reviewed: null
---
Read this.`;
const EYE = 'content/eyes/10-toric.md';

const REHEARSAL = `---
id: leak
title: Leak
procedures: [graft]
events: [leak]
first: [The chamber shallows.]
actions: [Stop., Find it., Close it.]
never: [Do not leave it.]
call: A senior colleague.
open: [A suture]
sources: [{ mark: c, kind: common-practice }]
reviewed: null
---
Read this.`;
const SPOKEN = 'content/rehearsals/10-leak.md';

/** The message a bad file gives: which file, which field. */
function complaint(read: () => unknown): string {
  try {
    read();
  } catch (error) {
    expect(error).toBeInstanceOf(ContentError);
    return error instanceof Error ? error.message : '';
  }
  return 'nothing was wrong';
}

describe('readEyeCards', () => {
  it('reads a card, its lines without marks and once more with them', () => {
    const [card] = readEyeCards({ [EYE]: CARD }, procedures, guidance);
    expect(card).toMatchObject({ id: 'toric', eyes: ['eye:toric'], overrides: ['a'], body: 'Read this.' });
    expect(card?.checkpoints[0]?.look).toBe('The marks are seen.');
    expect(card?.marked).toEqual({ 'The marks are seen.': 'The marks are seen [p1].' });
  });

  it.each([
    ['an unknown procedure', '[graft]', '[cornea]', 'procedures.0: no procedure "cornea"'],
    ['an unknown fact', "['eye:toric']", "['eye:torus']", 'eyes.0: no fact "torus" in graft'],
    ['an unknown level of a fact', "['eye:toric']", "['eye:pupil:huge']", 'eyes.0: no level "huge"'],
    ['a pattern where a kind of eye belongs', "['eye:toric']", '[longer]', 'eyes.0: "longer" is not a kind of eye'],
    ['a field misspelt', 'never:', 'nevr:', 'never: '],
    ['a field too many', 'reviewed: null', 'reviewed: null\nminutes: 5', 'file: '],
    [
      'one checkpoint',
      '  - { id: t2, look: The lens is short of its axis., why: It turns one way. }\n',
      '',
      'checkpoints: ',
    ],
    ['nothing to have ready', '[A second lens.]', '[]', 'ready: '],
    [
      'a contradiction not named',
      'overrides: [a]',
      'overrides: []',
      'overrides: the checkpoint "a" is not for this eye',
    ],
    ['an unknown checkpoint', 'overrides: [a]', 'overrides: [a, z]', 'overrides.1: no checkpoint "z" in graft'],
    [
      'a checkpoint that would still be given',
      'overrides: [a]',
      'overrides: [a, b]',
      'overrides.1: the checkpoint "b" does',
    ],
    ['a duration in what to have ready', 'A second lens.', 'A lens within 5 min.', 'ready.0: "5 min" is a duration'],
    ['a duration in a checkpoint', 'It turns one way.', 'It turns in ten seconds.', 'checkpoints.1.why: "ten seconds"'],
    ['a duration in the stop sign', 'The rim is torn.', 'After 2 minutes.', 'stop: "2 minutes"'],
    ['a duration in what not to do', 'Do not turn it backwards.', 'Not over 30 s.', 'never: "30 s"'],
    ['a duration in the short read', '\nRead this.', '\nRead for a minute.', 'body: "a minute"'],
    ['a mark without a source', 'The rim is torn.', '"Torn [p2]."', 'stop: no source has the mark "p2"'],
    ['a source that nothing cites', ' [p1]', '', 'sources.0: no sentence cites "p1"'],
    ['a checkpoint id of a step', 'id: t1', 'id: b', 'id: "b" already stands in content/checkpoints'],
    ['no short read', '\nRead this.', '', 'body: the short read is missing'],
    ['another name than its file', 'id: toric', 'id: torus', 'id: the file is named after "toric"'],
  ])('refuses %s, naming file and field', (_, from, to, expected) => {
    expect(CARD).toContain(from);
    expect(complaint(() => readEyeCards({ [EYE]: CARD.replace(from, to) }, procedures, guidance))).toContain(
      `${EYE}: ${expected}`,
    );
  });

  it('refuses one id in two files', () => {
    const files = { [EYE]: CARD, 'content/eyes/20-toric.md': CARD.replace('t1', 't3').replace('t2', 't4') };
    expect(complaint(() => readEyeCards(files, procedures, guidance))).toContain(`"toric" already stands in ${EYE}`);
  });
});

describe('readRehearsals', () => {
  it('reads a rehearsal', () => {
    expect(readRehearsals({ [SPOKEN]: REHEARSAL }, procedures)[0]).toMatchObject({
      id: 'leak',
      actions: ['Stop.', 'Find it.', 'Close it.'],
      call: 'A senior colleague.',
    });
  });

  it.each([
    ['an unknown event', '[leak]', '[melt]', 'events.0: no event "melt" in graft'],
    ['two actions', '[Stop., Find it., Close it.]', '[Stop., Close it.]', 'actions: '],
    ['nobody to call', 'call: A senior colleague.\n', '', 'call: '],
    ['nothing to open', '[A suture]', '[]', 'open: '],
    ['a duration in an action', 'Find it.', 'Find it in 10 s.', 'actions.1: "10 s" is a duration'],
    ['a duration in how it shows', 'The chamber shallows.', 'After some minutes.', 'first.0: "some minutes"'],
    ['a duration in the title', 'title: Leak', 'title: Leak in 5 minutes', 'title: "5 minutes"'],
    ['a field too many', 'reviewed: null', 'reviewed: null\nstars: 5', 'file: '],
    ['an unknown procedure', '[graft]', '[cornea]', 'procedures.0: '],
    ['a mark without a source', 'call: A senior colleague.', "call: 'A colleague [m1].'", 'call: no source has'],
  ])('refuses %s, naming file and field', (_, from, to, expected) => {
    expect(REHEARSAL).toContain(from);
    expect(complaint(() => readRehearsals({ [SPOKEN]: REHEARSAL.replace(from, to) }, procedures))).toContain(
      `${SPOKEN}: ${expected}`,
    );
  });
});
