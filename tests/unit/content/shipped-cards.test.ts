import { describe, expect, it } from 'vitest';
import type { EyeCard, Rehearsal } from '../../../src/lib/rules/cards';
import { loadEyeCards, loadGuidance, loadProcedures, loadRehearsals } from '../../../src/lib/server/content';
import { marksIn, withoutMarks } from '../../../src/lib/server/content/source-marks';
import { DURATION, FORBIDDEN, PRACTISE } from './forbidden';
import { allTexts, readingGrade, sentencesOf, wordsOf } from './prose';

const eyes = loadEyeCards();
const rehearsals = loadRehearsals();

const linesOfEye = (card: EyeCard): string[] => [
  ...card.ready,
  ...card.checkpoints.flatMap(({ look, why }) => [look, why]),
  card.never,
  card.stop,
];
const linesOfRehearsal = (card: Rehearsal): string[] => [
  ...card.first,
  ...card.actions,
  ...card.never,
  card.call,
  ...card.open,
];
const all = [
  ...eyes.map((card) => [`eyes/${card.id}`, card, linesOfEye(card)] as const),
  ...rehearsals.map((card) => [`rehearsals/${card.id}`, card, linesOfRehearsal(card)] as const),
];

describe('coverage', () => {
  it('has a card for each kind of eye that changes what is done, in each procedure that asks about it', () => {
    for (const [procedureId, facts] of [
      [
        'phaco',
        ['polar-or-plaque', 'pupil', 'floppy-iris', 'nucleus', 'loose-zonules', 'shallow-chamber', 'deep-eye', 'toric'],
      ],
      [
        'sics',
        [
          'polar-or-plaque',
          'pupil',
          'floppy-iris',
          'nucleus',
          'loose-zonules',
          'shallow-chamber',
          'deep-eye',
          'toric',
          'scarred-conjunctiva',
          'thin-sclera',
          'nucleus-size',
        ],
      ],
    ] as const) {
      const asked =
        loadProcedures()
          .find(({ id }) => id === procedureId)
          ?.facts.map(({ id }) => id) ?? [];
      const covered = eyes
        .filter(({ procedures }) => procedures.includes(procedureId))
        .flatMap((card) => card.eyes.map((eye) => eye.split(':')[1]));
      for (const fact of facts) {
        expect(asked).toContain(fact);
        expect(covered, `${procedureId}: ${fact}`).toContain(fact);
      }
    }
  });

  it('has a rehearsal for each event that is over before it can be thought out', () => {
    const events = new Set(rehearsals.flatMap((card) => card.events));
    for (const kind of [
      'posterior-capsule-tear',
      'vitreous-loss',
      'anterior-capsule-tear',
      'dropped-nucleus',
      'zonular-dialysis',
      'iris-prolapse',
      'wound-burn',
      'descemet-detachment',
      'choroidal-haemorrhage',
      'wound-leak',
      'tunnel-buttonhole',
      'early-entry',
      'iris-damage',
    ])
      expect(events).toContain(kind);
  });
});

describe.each(all)('%s', (_, card, lines) => {
  it('reads at grade 9 or below, lines and short read each', () => {
    expect(readingGrade(withoutMarks(card.body))).toBeLessThanOrEqual(9);
    expect(readingGrade(lines.map((line) => line.replace(/([^.!?])$/, '$1.')).join('\n\n'))).toBeLessThanOrEqual(9);
  });

  it('is short: no line over 30 words, no read over 120', () => {
    for (const line of lines) expect(wordsOf(line).length, line).toBeLessThanOrEqual(30);
    expect(wordsOf(withoutMarks(card.body)).length).toBeLessThanOrEqual(120);
  });

  it('holds no duration anywhere', () => {
    for (const text of [card.title, ...lines, card.body]) expect(text).not.toMatch(DURATION);
  });

  it.each(FORBIDDEN)('holds nothing that $why', ({ pattern }) => {
    for (const text of [card.title, ...lines, withoutMarks(card.body)]) expect(text).not.toMatch(pattern);
  });

  it('asks nobody to practise on a patient', () => {
    for (const text of [...lines, card.body]) expect(text.replace(/common practice/gi, '')).not.toMatch(PRACTISE);
  });

  it('marks the source of every sentence with a figure, and gives a share only from a published source', () => {
    const sentences = [...Object.values(card.marked), card.body].flatMap(sentencesOf);
    const unmarked = lines.filter((line) => !Object.hasOwn(card.marked, line)).flatMap(sentencesOf);
    const figures = [...sentences, ...unmarked].filter((sentence) => /\d/.test(withoutMarks(sentence)));
    expect(figures.filter((sentence) => marksIn(sentence).length === 0)).toEqual([]);
    const shares = figures.filter((sentence) =>
      /\d (?:of|in)(?: every)? \d|times as|fewer/.test(withoutMarks(sentence)),
    );
    expect(shares.filter((sentence) => !marksIn(sentence).some((mark) => mark !== 'c'))).toEqual([]);
    for (const source of card.sources) if (source.kind === 'published') expect(source.ref).toMatch(/\b(19|20)\d\d\b/);
  });

  it('awaits its review', () => {
    // No practising surgeon has read any card yet. Whoever does sets `reviewed` and takes the card out of this list.
    expect(card.reviewed).toBeNull();
  });
});

describe('between cards and pages', () => {
  it('no sentence stands twice', () => {
    const texts = [
      ...loadGuidance().map((page) => [`checkpoints/${page.step}`, allTexts(page).slice(1)] as const),
      ...all.map(([name, card, lines]) => [name, [...lines, withoutMarks(card.body)]] as const),
    ];
    const seen = new Map<string, string>();
    const repeats: string[] = [];
    for (const [name, lines] of texts)
      for (const sentence of lines.flatMap(sentencesOf).filter((each) => wordsOf(each).length > 6)) {
        const key = wordsOf(sentence).join(' ');
        const first = seen.get(key);
        if (first && first !== name) repeats.push(`${first} and ${name}: ${sentence}`);
        seen.set(key, name);
      }
    expect(repeats).toEqual([]);
  });

  it('says one sentence when the capsule gives way as the standing text does: irrigate, stop aspirating, OVD, withdraw', () => {
    const vitreous = rehearsals.find(({ id }) => id === 'rupture-vitreous');
    expect(vitreous?.actions[0]).toMatch(/keep irrigating.*stop aspirating.*OVD through the side port.*withdraw/i);
  });
});
