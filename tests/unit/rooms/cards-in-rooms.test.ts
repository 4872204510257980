import { describe, expect, it } from 'vitest';
import type { Goal } from '../../../src/lib/model';
import { cardsToAsk, setAsideWords } from '../../../src/lib/rooms/before-a-list/eyes-on-list';
import { cardsOfStep } from '../../../src/lib/rooms/checkpoints/cards-of-step';
import { loadEyeCards, loadGuidance, loadRehearsals } from '../../../src/lib/server/content';

const eyes = loadEyeCards();
const running = (procedureId: string) => [{ state: 'running', procedureId }] as unknown as Goal[];

describe('cards where they are needed', () => {
  it('asks only for eyes of the operation that is done', () => {
    const ids = (goals: Goal[], own: string) => cardsToAsk(eyes, goals, own).map(({ id }) => id);
    expect(ids([], 'phaco')).not.toContain('thin-sclera');
    expect(ids([], 'sics')).toContain('thin-sclera');
    expect(ids(running('sics'), 'phaco')).toContain('thin-sclera');
  });

  it('says of a checkpoint that it does not apply in a polar cataract, and nothing without one on the list', () => {
    const polar = eyes.filter(({ id }) => id === 'polar');
    expect(setAsideWords('hydro-wave', polar)).toContain('Does not apply in: Posterior polar cataract');
    expect(setAsideWords('hydro-wave', [])).toBe('');
    expect(setAsideWords('polar-delineate', polar)).toBe('');
  });

  it('names on the page of hydrodissection the polar card, and each event its checkpoints name', () => {
    const page = loadGuidance().find(({ procedureId, step }) => procedureId === 'phaco' && step === 'hydrodissection');
    if (!page) throw new Error('hydrodissection has a page');
    const cards = cardsOfStep(page, { eyes, rehearsals: loadRehearsals() });
    expect(cards.eyes.map(({ id }) => id)).toContain('polar');
    expect(cards.eyes.map(({ id }) => id)).not.toContain('thin-sclera');
    expect(cards.rehearsals.map(({ id }) => id)).toContain('rupture');
  });
});
