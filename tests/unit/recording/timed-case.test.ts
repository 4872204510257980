import { describe, expect, it } from 'vitest';
import { boundaryKey, expectedBoundaries } from '../../../src/lib/rooms/cases/expected-boundaries';
import { timedCase } from '../../../src/lib/rooms/cases/timed-case';
import type { TypedFacts } from '../../../src/lib/rooms/cases/typed-case';
import {
  edited,
  emptyLog,
  endStep,
  newDraft,
  startStep,
  toggleSeen,
  toggleWaiting,
  type Log,
} from '../../../src/lib/recording';
import type { Case } from '../../../src/lib/model';
import { phaco } from '../intake/procedures';

const typed: TypedFacts = {
  code: 'T1',
  list: { kind: 'none' },
  position: null,
  facts: { nucleus: 'medium' },
  hands: { whole: 'mine', steps: {} },
  events: [],
};
const rhexis = (log: Log = emptyLog) => endStep(startStep(log, 'capsulorhexis', 10), 95.5);
const of = (log: Log) => timedCase({ ...newDraft('T1'), log }, typed, phaco);

describe('a timing as a case', () => {
  it('keeps stretches, hands, events and protected parts; the recording by size and fingerprint alone', () => {
    let log = toggleSeen(rhexis(), phaco.steps.find(({ id }) => id === 'capsulorhexis')?.protectedParts[0]?.id ?? '');
    log = edited(log, { do: 'hands', stepId: 'capsulorhexis', hands: 'shared' });
    const kind = phaco.eventKinds[0]?.id ?? '';
    log = edited(log, { do: 'event', event: { kind, stepId: 'capsulorhexis', serious: true, nearMiss: false } });
    const recording = { size: 12, fingerprint: 'a'.repeat(64), duration: 100 };
    const { timed, errors } = timedCase({ ...newDraft('T1'), log, recording }, typed, phaco);
    expect(errors).toEqual([]);
    expect(timed.times.stretches).toEqual([
      { stepId: 'capsulorhexis', start: 10, end: 95.5, seconds: 85.5, kind: 'step', reason: null },
    ]);
    expect(timed.typed.hands).toEqual({ whole: 'mine', steps: { capsulorhexis: 'shared' } });
    expect(timed.typed.events).toEqual([
      { kind, stepId: 'capsulorhexis', serious: true, nearMiss: false, noticed: 'during', reviewed: null },
    ]);
    expect(Object.values(timed.times.protectedSeen)).toEqual([true]);
    expect(timed.recording).toEqual({ size: 12, fingerprint: 'a'.repeat(64), label: null });
  });

  it('is refused with the step named where marks are missing', () => {
    expect(of(emptyLog).errors).toEqual([
      { field: 'steps', message: 'No step has a start and an end yet. One step is enough.' },
    ]);
    expect(of(startStep(rhexis(), 'hydrodissection', 100)).errors[0]?.message).toMatch(
      /^Hydrodissection: .* no end yet/,
    );
    expect(of(toggleWaiting(rhexis(), 100)).errors[0]?.message).toMatch(/^Waiting between steps: /);
    const twice = endStep(startStep(endStep(startStep(emptyLog, 'side-port', 1), 2), 'incision', 3), 4);
    expect(of(twice).errors[0]?.message).toMatch(/^Incision is the whole of steps/);
    expect(of(endStep(startStep(emptyLog, 'gone', 1), 2)).errors[0]?.message).toMatch(/takes no times/);
  });

  it('does not keep a reason or a part that the procedure does not know', () => {
    let log = toggleWaiting(toggleWaiting(rhexis(), 100), 104);
    log = edited(log, { do: 'reason', row: 1, reason: 'lunch' });
    log = toggleSeen(log, 'gone');
    const { timed } = of(log);
    expect(timed.times.stretches.map(({ reason }) => reason)).toEqual([null, null]);
    expect(timed.times.protectedSeen).toEqual({});
  });
});

describe('expected boundaries', () => {
  const timedIn = (gap: number): Pick<Case, 'source' | 'stretches' | 'procedureId'> => ({
    procedureId: 'phaco',
    source: { kind: 'timed' },
    stretches: [
      { stepId: 'side-port', start: 40, end: 50, seconds: 10, kind: 'step', reason: null },
      { stepId: 'ovd-fill', start: 50 + gap, end: 90, seconds: 40 - gap, kind: 'step', reason: null },
    ],
  });
  it('come with the fifth case timed here, and hold the middle eight in ten of the gaps', () => {
    const cases = [1, 2, 3, 4, 5].map(timedIn);
    expect(expectedBoundaries(cases.slice(1), 'phaco')).toBe(null);
    expect(
      expectedBoundaries(
        cases.map((one) => ({ ...one, source: { kind: 'typed' as const } })),
        'phaco',
      ),
    ).toBe(null);
    expect(expectedBoundaries(cases, 'sics')).toBe(null);
    const known = expectedBoundaries(cases, 'phaco');
    const fill = known?.[boundaryKey('ovd-fill', 'from')];
    expect(fill?.after).toBeGreaterThanOrEqual(1);
    expect(fill?.until).toBeLessThanOrEqual(5);
    expect((fill?.until ?? 0) - (fill?.after ?? 0)).toBeGreaterThan(2);
    expect(known?.[boundaryKey('side-port', 'to')]).toEqual({ after: 10, until: 10 });
    expect(known?.[boundaryKey('side-port', 'from')]).toBe(undefined);
  });
});
