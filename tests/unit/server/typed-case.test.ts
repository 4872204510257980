import { describe, expect, it } from 'vitest';
import { caseSchema } from '../../../src/lib/model';
import { typedCase } from '../../../src/lib/server/typed-case';
import { aCase } from '../../made-up/record';

const { code, procedureId, position, facts, hands, events, stretches, returnsNoted, protectedSeen } = aCase(1);
const typed = { code, procedureId, position, facts, hands, events };
const times = { stretches, returnsNoted, protectedSeen };

describe('a typed case', () => {
  it('says whether its times were read off a recording or noted by hand', () => {
    expect(typedCase(typed, times).source).toEqual({ kind: 'typed' });
    const byHand = typedCase(typed, times, { kind: 'by-hand' });
    expect(byHand.source).toEqual({ kind: 'by-hand' });
    expect(
      caseSchema.safeParse({ ...byHand, id: 'case-1', listId: null, sequence: 1, version: 1, history: [] }).success,
    ).toBe(true);
  });
});
