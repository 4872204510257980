import { describe, expect, it } from 'vitest';
import { atOnce } from '../../src/lib/turns';
import { auditOf, dataQueries, stepSecondsOf, waitingOf, waitingOfCase } from '../../src/lib/audit';
import { readAudit } from '../../src/lib/intake';
import type { Case } from '../../src/lib/model';
import { randomStream } from '../../src/lib/statistics';
import { phaco, procedures } from './intake/procedures';

/**
 * What every cataract surgeon knows about an uneventful operation on a soft to medium nucleus, in experienced hands.
 * Common practice, no source: the total stays under five minutes; incision, a capsulorhexis of about 5 mm, nucleus and
 * cortex take well under a minute each, removing a cohesive viscoelastic about a quarter of one, sealing the wounds
 * about half; waiting for a change of tubing or for the lens is not the surgeon's step time.
 *
 * Seconds as such a surgeon would note them after the list, with the names such a surgeon would write.
 */
const USUAL = [
  ['Incision', 'incision', 14],
  ['Viscoelastic', 'ovd-fill', 8],
  ['Capsulorhexis', 'capsulorhexis', 28],
  ['Hydrodissection', 'hydrodissection', 14],
  ['Phaco', 'nucleus-removal', 46],
  ['Cortex', 'cortex-aspiration', 32],
  ['Viscoelastic', 'bag-refill', 8],
  ['IOL', 'iol-insertion', 18],
  ['Viscoelastic removal', 'ovd-removal', 15],
  ['Sealing', 'wound-check', 30],
] as const;

const TUBING = 21;
const LENS = 17;

/** The audit as a file: a row a stretch, on the recording's clock, with the waiting where it came. */
function fileOf(cases: number, seed = 5, odd: Readonly<Record<string, number>> = {}): string {
  const rows = ['case,date,procedure,nucleus,step,kind,reason,start,end'];
  for (let number = 1; number <= cases; number++) {
    const stream = randomStream(seed, number);
    const code = `A${String(number).padStart(2, '0')}`;
    const date = `2026-0${1 + Math.floor((number - 1) / 6)}-14`;
    const nucleus = number % 2 === 0 ? 'soft' : 'medium';
    let clock = 6;
    const add = (step: string, kind: string, reason: string, seconds: number) => {
      rows.push(
        [code, date, 'phaco', nucleus, step, kind, reason, clock.toFixed(1), (clock + seconds).toFixed(1)].join(','),
      );
      clock += seconds;
    };
    for (const [label, stepId, usual] of USUAL) {
      if (stepId === 'cortex-aspiration') add(label, 'waiting', 'change of tubing', TUBING);
      const seconds = odd[`${code} ${stepId}`] ?? Number((usual * Math.exp(0.12 * stream.normal())).toFixed(1));
      if (stepId === 'iol-insertion') {
        // The lens is not loaded when the surgeon asks for it: the waiting lies inside the step.
        const from = clock;
        rows.push(
          [code, date, 'phaco', nucleus, label, 'waiting', 'waiting for the lens', from + 2, from + 2 + LENS].join(','),
        );
        add(label, 'step', '', seconds + LENS);
      } else add(label, 'step', '', seconds);
      clock += 1;
    }
  }
  return rows.join('\n');
}

function read(text: string) {
  const reading = readAudit({ text, fileName: 'after-the-list.csv', procedures });
  const cases = reading.cases.map(({ list: _list, row, ...one }, index): Case => ({
    ...one,
    id: `case-${index + 1}`,
    listId: null,
    factChanges: [],
    source: { kind: 'file', importId: 'import-1', row },
    leftOut: null,
    keptAsItIs: null,
    invented: false,
    version: 1,
    history: [],
  }));
  return { reading, cases };
}

describe('an uneventful case in experienced hands (common practice, no source)', () => {
  const { reading, cases } = read(fileOf(24));

  it('is read and matched without a question, a problem or a guess', () => {
    expect(reading.problems).toEqual([]);
    expect(reading.questions).toEqual([]);
    expect(reading.mapping.filter(({ how }) => how === 'none')).toEqual([]);
    expect(cases).toHaveLength(24);
    expect([...new Set(cases.flatMap((one) => one.stretches.map(({ stepId }) => stepId)))].sort()).toEqual(
      USUAL.map(([, stepId]) => stepId).sort(),
    );
  });

  it('is summarised without a query', () => {
    expect(atOnce(dataQueries(cases, phaco))).toEqual([]);
  });

  it('stays under five minutes in total, and each step where the trade puts it', () => {
    const { steps } = auditOf({ cases, lists: [], procedure: phaco, references: [], seed: 1, resamples: 200 });
    const usual = Object.fromEntries(steps.filter(({ n }) => n > 0).map((step) => [step.stepId, step.median ?? NaN]));
    expect(Object.keys(usual)).toHaveLength(USUAL.length);
    for (const stepId of ['incision', 'capsulorhexis', 'nucleus-removal', 'cortex-aspiration'])
      expect(usual[stepId], stepId).toBeLessThan(55);
    expect(usual['ovd-removal']).toBeGreaterThan(12);
    expect(usual['ovd-removal']).toBeLessThan(18);
    expect(usual['wound-check']).toBeGreaterThan(25);
    expect(usual['wound-check']).toBeLessThan(35);
    for (const one of cases) {
      const total = USUAL.reduce((sum, [, stepId]) => sum + (stepSecondsOf(one, stepId) ?? NaN), 0);
      expect(total, one.code).toBeLessThan(300);
      expect(total, one.code).toBeGreaterThan(120);
    }
  });

  it('keeps waiting for tubing and for the lens outside the step times', () => {
    for (const [index, one] of cases.entries()) {
      const stream = randomStream(5, index + 1);
      const written = USUAL.map(([, , seconds]) => Number((seconds * Math.exp(0.12 * stream.normal())).toFixed(1)));
      for (const [place, [, stepId]] of USUAL.entries())
        expect(stepSecondsOf(one, stepId), `${one.code} ${stepId}`).toBeCloseTo(written[place] ?? NaN, 6);
      expect(waitingOf(one, 'iol-insertion')).toBeCloseTo(LENS, 6);
      expect(waitingOf(one, 'cortex-aspiration')).toBeCloseTo(TUBING, 6);
      expect(waitingOfCase(one)).toBeCloseTo(LENS + TUBING, 6);
    }
    const reasons = new Set(cases.flatMap((one) => one.stretches.flatMap(({ reason }) => reason ?? [])));
    expect([...reasons].sort()).toEqual(['lens-loading', 'machine']);
  });

  it('lets a merely longer case pass, and asks about an implausible one', () => {
    const longer = read(fileOf(24, 5, { 'A07 nucleus-removal': 80 }));
    expect(atOnce(dataQueries(longer.cases, phaco))).toEqual([]);
    const odd = read(fileOf(24, 5, { 'A07 capsulorhexis': 900 }));
    expect(atOnce(dataQueries(odd.cases, phaco))).toMatchObject([
      { code: 'A07', stepId: 'capsulorhexis', why: { code: 'far-from-own', seconds: 900, far: 'longer' } },
    ]);
    const single = read(fileOf(1, 5, { 'A01 capsulorhexis': 5400 }));
    expect(atOnce(dataQueries(single.cases, phaco)).map(({ stepId }) => stepId)).toEqual(['capsulorhexis']);
    const hasty = read(fileOf(24, 5, { 'A09 cortex-aspiration': 2 }));
    expect(atOnce(dataQueries(hasty.cases, phaco))).toMatchObject([{ code: 'A09', stepId: 'cortex-aspiration' }]);
  });

  it('refuses a stretch of more than two hours, by name', () => {
    const { reading: refused } = read(fileOf(3, 5, { 'A02 nucleus-removal': 7300 }));
    expect(refused.problems).toMatchObject([{ column: 'end', weight: 'refused' }]);
    expect(refused.problems[0]?.why).toContain('more than two hours');
  });
});
