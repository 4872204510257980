import { describe, expect, it } from 'vitest';
import { CAUTION_NAMES, readCautions } from '../../../src/lib/server/content/cautions';
import { ContentError } from '../../../src/lib/server/content/content-error';
import { splitFrontMatter } from '../../../src/lib/server/content/front-matter';
import { readGuidance } from '../../../src/lib/server/content/guidance';
import { readMethodPages } from '../../../src/lib/server/content/method-pages';
import { readProcedures } from '../../../src/lib/server/content/procedures';

const step = (id: string) =>
  `  - { id: ${id}, label: ${id}, starts: a, ends: b, synonyms: [], earlier: [], optional: false, notToShorten: false, protectedParts: [${id === 'suture' ? '{ id: bites, label: Bites }' : '{ id: centred, label: Centred }'}] }`;
const PROCEDURE = `id: graft\nname: Graft\nsteps:\n${step('trephine')}\n${step('suture')}\nfacts: [{ id: pupil, label: Pupil, kind: choice, levels: [{ id: small, label: small, key: S }] }, { id: depth, label: Depth, kind: number }, { id: toric, label: Toric, kind: yes-no }]\nwaitingReasons: []\neventKinds: [{ id: leak, label: leak }]\n`;
const procedures = readProcedures({ 'content/procedures/graft.yaml': PROCEDURE });

const checkpoint = (id: string) =>
  `  - { id: ${id}, look: The edge is seen., why: A hidden edge tears., fits: [longer] }`;
const PAGE = [
  '---',
  'step: suture',
  'title: Suture',
  'aim: The graft is held all round.',
  'protectedParts: [the leak check]',
  'checkpoints:',
  ...['a', 'b', 'c', 'd', 'e'].map(checkpoint),
  'reminders: [One., Two.]',
  'stop: [The chamber shallows.]',
  'earlier: [trephine]',
  'drills:',
  '  - { id: d1, where: wet lab, minutes: 15, do: Ten sutures., passed: Three hold. }',
  '  - { id: d2, where: desk, minutes: 5, do: Draw the order., passed: Three times from memory. }',
  'sources: [ { mark: p1, kind: published, ref: A journal 2020 }, { mark: c, kind: common-practice } ]',
  'reviewed: null',
  '---',
  'Read this [p1].',
].join('\n');
const FILE = 'content/checkpoints/graft/20-suture.md';
const page = (from: string, to: string) => () => readGuidance({ [FILE]: PAGE.replace(from, to) }, procedures);

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

describe('readGuidance', () => {
  it('reads a page', () => {
    const [read] = readGuidance({ [FILE]: PAGE }, procedures);
    expect(read).toMatchObject({ procedureId: 'graft', step: 'suture', reviewed: null, body: 'Read this [p1].' });
    expect(read?.checkpoints).toHaveLength(5);
  });

  it.each([
    ['an unknown step', 'step: suture', 'step: sutures', 'step: no step "sutures"'],
    ['an unknown earlier step', '[trephine]', '[rhexis]', 'earlier: no earlier step "rhexis"'],
    ['a step that is its own earlier step', '[trephine]', '[suture]', 'earlier: no earlier step "suture"'],
    ['a field misspelt', 'reminders:', 'reminder:', 'reminders: '],
    ['a field too many', 'reviewed: null', 'reviewed: null\nstars: 5', 'file: '],
    ['an unknown pattern', 'fits: [longer]', 'fits: [long]', 'checkpoints.0.fits.0: '],
    ['too few checkpoints', checkpoint('e') + '\n', '', 'checkpoints: '],
    ['one reminder', '[One., Two.]', '[One.]', 'reminders: '],
    ['no stop sign', 'stop: [The chamber shallows.]', 'stop: []', 'stop: '],
    ['a drill on a patient', 'where: desk', 'where: theatre', 'drills.1.where: '],
    ['a published source without reference', ', ref: A journal 2020', '', 'sources.0.ref: '],
    ['a mark of another kind', 'mark: p1', 'mark: m1', 'sources.0.mark: '],
    ['a source that no sentence cites', ' [p1].', '.', 'sources.0: no sentence cites "p1"'],
    ['a mark without a source', 'The edge is seen.', "'The edge is seen [p2].'", 'checkpoints.0.look: no source has'],
    ['a drill without a pass mark', ', passed: Three hold.', '', 'drills.0.passed: '],
    ['a pattern misspelt', 'fits: [longer]', 'fits: [lnoger]', 'checkpoints.0.fits.0: "lnoger" is no pattern'],
    [
      'an unknown fact',
      'fits: [longer]',
      "fits: ['eye:pupils:small']",
      'checkpoints.0.fits.0: no fact "pupils" in graft',
    ],
    ['an unknown level', 'fits: [longer]', "fits: ['eye:pupil:tiny']", 'checkpoints.0.fits.0: no level "tiny"'],
    [
      'a choice without its level',
      'fits: [longer]',
      "fits: ['eye:pupil']",
      'checkpoints.0.fits.0: the fact "pupil" needs',
    ],
    [
      'a number as a kind of eye',
      'fits: [longer]',
      "fits: ['eye:depth']",
      'checkpoints.0.fits.0: the fact "depth" is a',
    ],
    ['an unknown event', 'fits: [longer]', "fits: ['event:melt']", 'checkpoints.0.fits.0: no event "melt" in graft'],
    [
      'a part of another step',
      'fits: [longer]',
      "fits: ['part:centred']",
      'checkpoints.0.fits.0: no protected part "centred"',
    ],
    [
      'a drill for an unknown event',
      'passed: Three hold.',
      "passed: Three hold., fits: ['event:melt']",
      'drills.0.fits.0: ',
    ],
    [
      'an exclusion that is no kind of eye',
      'fits: [longer]',
      'fits: [longer], notFor: [varies]',
      'checkpoints.0.notFor.0: ',
    ],
    ['a duration in the aim', 'held all round.', 'held in 90 s.', 'aim: "90 s" is a duration'],
    [
      'a duration in a look',
      'The edge is seen.',
      'The edge is seen for ten seconds.',
      'checkpoints.0.look: "ten seconds"',
    ],
    ['a duration in a why', 'A hidden edge tears.', 'It tears in a minute.', 'checkpoints.0.why: "a minute" is'],
    ['a duration in a reminder', '[One., Two.]', '[One., At 1:30.]', 'reminders.1: "1:30" is a duration'],
    ['a duration in a stop sign', '[The chamber shallows.]', '[After 5 min.]', 'stop.0: "5 min" is a duration'],
    ['a duration in a protected part', '[the leak check]', '[an hour of rest]', 'protectedParts.0: "'],
    ['YAML that is none', 'Parts: [the', 'Parts: [[the', 'YAML: '],
    ['an id used twice', 'id: b,', 'id: a,', 'id: "a" already stands in'],
    ['no short read', 'Read this [p1].', '', 'body: '],
  ])('refuses %s, naming file and field', (_, from, to, expected) => {
    expect(PAGE).toContain(from);
    expect(complaint(page(from, to))).toContain(`${FILE}: ${expected}`);
  });

  it('takes facts, events and protected parts that the procedure has, and hands texts on without their marks', () => {
    const text = PAGE.replace('fits: [longer]', "fits: ['eye:pupil:small', 'eye:toric', 'event:leak', 'part:bites']")
      .replace('The edge is seen.', "'The edge is 2 mm wide [p1].'")
      .replace('fits: [longer]', 'fits: [varies], notFor: [eye:toric]');
    const [read] = readGuidance({ [FILE]: text }, procedures);
    expect(read?.checkpoints[0]).toMatchObject({
      look: 'The edge is 2 mm wide.',
      fits: ['eye:pupil:small', 'eye:toric', 'event:leak', 'part:bites'],
    });
    expect(read?.checkpoints[1]).toMatchObject({ fits: ['varies'], notFor: ['eye:toric'] });
    expect(read?.marked).toEqual({ 'The edge is 2 mm wide.': 'The edge is 2 mm wide [p1].' });
  });

  it('refuses a page named after another step, and one of an unknown procedure', () => {
    expect(complaint(() => readGuidance({ 'content/checkpoints/graft/20-trephine.md': PAGE }, procedures))).toContain(
      'named after',
    );
    expect(complaint(() => readGuidance({ 'content/checkpoints/other/20-suture.md': PAGE }, procedures))).toContain(
      'no procedure',
    );
    expect(complaint(() => readGuidance({ 'content/checkpoints/graft/suture.md': PAGE }, procedures))).toContain(
      'path: expected',
    );
  });
});

describe('readProcedures', () => {
  it('names the file and the field that is wrong', () => {
    const bad = PROCEDURE.replace('earlier: []', 'earlier: [nowhere]');
    expect(complaint(() => readProcedures({ 'content/procedures/graft.yaml': bad }))).toBe(
      'content/procedures/graft.yaml: steps.0: unknown step "nowhere"',
    );
    expect(complaint(() => readProcedures({ 'content/procedures/cornea.yaml': PROCEDURE }))).toContain(
      'cornea.yaml: id: ',
    );
    expect(complaint(() => readProcedures({}))).toContain('no procedure is shipped');
  });
});

describe('splitFrontMatter', () => {
  it('takes only a head that begins the file', () => {
    expect(splitFrontMatter('\uFEFF---\r\na: 1\r\n---\r\ntext\n\n---\n\nmore', 'f')).toEqual({
      head: { a: 1 },
      body: 'text\n\n---\n\nmore',
    });
    expect(complaint(() => splitFrontMatter('text\n---\na: 1\n---\n', 'f'))).toContain('f: head: ');
  });

  it('refuses a key given twice', () => {
    expect(complaint(() => splitFrontMatter('---\na: 1\na: 2\n---\n', 'f'))).toContain('f: YAML: ');
  });
});

describe('readCautions', () => {
  const all = Object.fromEntries(
    CAUTION_NAMES.map((name) => [`content/cautions/${name}.md`, '---\ntitle: T\nwhere: W\n---\nOne\nline.\n\nTwo.']),
  );

  it('reads paragraphs by name', () => {
    expect(readCautions(all).standing.paragraphs).toEqual(['One line.', 'Two.']);
  });

  it('refuses a missing, an unknown and an empty text', () => {
    const { 'content/cautions/codes.md': _, ...missing } = all;
    expect(complaint(() => readCautions(missing))).toBe('content/cautions/codes.md: file: missing');
    expect(complaint(() => readCautions({ ...all, 'content/cautions/code.md': 'x' }))).toContain('code.md: name: ');
    expect(
      complaint(() => readCautions({ ...all, 'content/cautions/codes.md': '---\ntitle: T\nwhere: W\n---\n' })),
    ).toContain('codes.md: body: ');
  });

  it('refuses a duration in a text that stands on the note, and in no other', () => {
    const timed = '---\ntitle: T\nwhere: W\npoints: [Wait., Wait five minutes.]\n---\nOne.';
    expect(complaint(() => readCautions({ ...all, 'content/cautions/general-note.md': timed }))).toBe(
      'content/cautions/general-note.md: points.1: "five minutes" is a duration, and this text stands on the note',
    );
    expect(readCautions({ ...all, 'content/cautions/codes.md': timed }).codes.points).toHaveLength(2);
  });
});

describe('readMethodPages', () => {
  const text = '---\nid: median\ntitle: The median\n---\nThe median.';

  it('reads id, title and body, in order of file name', () => {
    expect(readMethodPages({ 'content/method/10-median.md': text })).toEqual([
      { id: 'median', title: 'The median', body: 'The median.' },
    ]);
  });

  it('refuses an id used twice and a missing title', () => {
    expect(complaint(() => readMethodPages({ 'content/method/a.md': text, 'content/method/b.md': text }))).toContain(
      'b.md: id: ',
    );
    expect(complaint(() => readMethodPages({ 'content/method/a.md': text.replace('title', 'name') }))).toContain(
      'a.md: title: ',
    );
  });
});
