import { describe, expect, it } from 'vitest';
import { caseSchema } from '../../../src/lib/model';
import { typedCase } from '../../../src/lib/server/typed-case';
import { aCase } from '../rooms/made-up';

const { code, procedureId, listId, position, facts, hands, events, stretches, wentBackNoted, keptSeen } = aCase(1);
const typed = { code, procedureId, listId, position, facts, hands, events };
const times = { stretches, wentBackNoted, keptSeen };

describe('a typed case', () => {
  it('says whether its times were read off a recording or noted by hand', () => {
    expect(typedCase({ cases: [] }, typed, times).source).toEqual({ kind: 'typed' });
    const byHand = typedCase({ cases: [] }, typed, times, { kind: 'by-hand' });
    expect(byHand.source).toEqual({ kind: 'by-hand' });
    expect(caseSchema.safeParse({ ...byHand, id: 'case-1', version: 1, history: [] }).success).toBe(true);
  });
  it('comes after every case of the record', () => {
    const cases = [aCase(4), aCase(2, { sequence: 6.5 })];
    expect(typedCase({ cases }, typed, times).sequence).toBe(7);
  });
});
