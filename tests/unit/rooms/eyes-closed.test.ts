import { describe, expect, it } from 'vitest';
import { eyesClosed } from '../../../src/lib/rooms/checkpoints/eyes-closed';
import { loadGuidance } from '../../../src/lib/server/content';
import { durationIn } from '../../../src/lib/words';

const page = {
  aim: 'A round opening.',
  checkpoints: ['One', 'Two', 'Three', 'Four'].map((look) => ({ id: look, look, why: '', fits: [], notFor: [] })),
  stop: ['The tear runs out. Stop and refill. Then start from the other side.', 'The chamber goes flat. Refill first.'],
};

describe('two minutes with eyes closed', () => {
  it('hold the aim, three checkpoints, one stop sign and its answer', () => {
    expect(eyesClosed(page, null, 0)).toEqual({
      aim: 'A round opening.',
      see: ['One', 'Two', 'Three'],
      sign: 'The tear runs out.',
      answer: 'Stop and refill. Then start from the other side.',
    });
    expect(eyesClosed(page, null, 3)?.sign).toBe('The chamber goes flat.');
  });

  it("take the running goal's own checkpoints", () => {
    const goal = { checkpoints: [{ id: 'own-1', look: 'The flap lies flat.' }] };
    expect(eyesClosed(page, goal, 0)?.see).toEqual(['The flap lies flat.']);
  });

  it.each(loadGuidance().map((each) => [`${each.procedureId} ${each.step}`, each] as const))(
    'can be made of %s, whichever stop sign it is, without a duration',
    (_, guidance) => {
      for (const turn of guidance.stop.keys()) {
        const script = eyesClosed(guidance, null, turn);
        expect(script?.answer).toMatch(/\w/);
        expect(durationIn(JSON.stringify(script))).toBeNull();
      }
    },
  );
});
