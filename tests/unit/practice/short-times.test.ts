import { describe, expect, it } from 'vitest';
import { shortTimes } from '../../../src/lib/practice';
import { goalOn } from '../../made-up/goal-on';
import { listsFor, month, operation } from '../../made-up/month';

const ids = (from: number, to: number) => Array.from({ length: to - from + 1 }, (_, at) => `case-${from + at}`);
function asked(cases: ReturnType<typeof month>) {
  const lists = listsFor(cases);
  const goal = goalOn(cases);
  return { cases, lists, procedure: operation, baseline: goal.baseline, windowIds: ids(41, 60), stepId: 'practised' };
}

describe('very short times', () => {
  it('are asked about when more than a fifth of the window lies under the starting tenth', () => {
    const hasty = shortTimes(asked(month(60, { change: Math.log(0.6) })))!;
    expect(hasty).toMatchObject({ of: 20, ask: true });
    expect(hasty.short).toBeGreaterThan(10);
    expect(hasty.caseIds).toHaveLength(hasty.short);
    expect(shortTimes(asked(month(60)))!.ask).toBe(false);
  });

  it('are not spoken of without a frozen model or a window', () => {
    const input = asked(month(60));
    expect(shortTimes({ ...input, windowIds: [] })).toBeNull();
    expect(shortTimes({ ...input, baseline: { ...input.baseline, frozen: null } })).toBeNull();
  });
});
