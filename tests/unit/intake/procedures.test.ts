import { describe, expect, it } from 'vitest';
import { phaco, procedures, sics } from './procedures';

describe('the shipped procedures', () => {
  it('hold the steps of the trade, in the order of the operation', () => {
    expect(phaco.steps.map((step) => step.id)).toEqual([
      'incision',
      'side-port',
      'ovd-fill',
      'main-incision',
      'capsulorhexis',
      'hydrodissection',
      'nucleus-disassembly',
      'segment-removal',
      'nucleus-removal',
      'cortex-aspiration',
      'capsule-polish',
      'bag-refill',
      'iol-insertion',
      'ovd-removal',
      'wound-check',
    ]);
    expect(sics.steps.map((step) => step.id)).toEqual([
      'bridle-suture',
      'peritomy',
      'cautery',
      'scleral-tunnel',
      'side-port-ovd',
      'chamber-entry',
      'capsulotomy',
      'hydrodissection',
      'nucleus-prolapse',
      'nucleus-delivery',
      'cortex-aspiration',
      'bag-refill',
      'iol-insertion',
      'ovd-removal',
      'wound-check',
      'conjunctiva',
    ]);
  });

  it.each(procedures)('$id: wound check and bag refill are not to be shortened', ({ steps }) => {
    expect(steps.filter((step) => step.notToShorten).map((step) => step.id)).toEqual(['bag-refill', 'wound-check']);
  });

  it.each(procedures)(
    '$id: a protected part, and a key within one field, stands for one thing only',
    ({ steps, facts }) => {
      const parts = steps.flatMap((step) => step.protectedParts.map((part) => part.id));
      expect(new Set(parts).size).toBe(parts.length);
      const letters = facts.filter((fact) => fact.asked === 'more').map((fact) => fact.key);
      expect(letters).not.toContain(undefined);
      expect(new Set(letters).size).toBe(letters.length);
      for (const { levels } of facts)
        if (levels) expect(new Set(levels.map((level) => level.key)).size).toBe(levels.length);
    },
  );

  it.each(procedures)('$id: each earlier step comes earlier', ({ steps }) => {
    const at = new Map(steps.map((step, index) => [step.id, index]));
    // The fill can come before the cut and after it; entry and capsulotomy change places with some surgeons.
    const eitherWay = new Set(['incision<ovd-fill']);
    for (const step of steps)
      for (const earlier of step.earlier)
        if (!eitherWay.has(`${step.id}<${earlier}`))
          expect(at.get(earlier), `${earlier} before ${step.id}`).toBeLessThan(at.get(step.id) ?? -1);
  });
});
