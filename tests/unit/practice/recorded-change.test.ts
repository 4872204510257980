import { describe, expect, it } from 'vitest';
import { recordedChange } from '../../../src/lib/practice';
import { recordedChangeWords } from '../../../src/lib/words';
import { recordOf, SHORTER, withResult } from '../../made-up/read-month';

describe('what stands in the block of a result', () => {
  const record = withResult(recordOf(60, SHORTER));
  const [result] = record.results;
  const change = recordedChange(result!, record.cases, record.procedures[0]!)!;

  it('are the medians a reader counts in the sheet', () => {
    const seconds = (from: number, to: number) =>
      record.cases
        .filter(({ sequence }) => sequence >= from && sequence <= to)
        .map(({ stretches }) =>
          stretches
            .filter(({ stepId, kind }) => stepId === 'practised' && kind === 'step')
            .reduce((sum, { seconds: s }) => sum + s, 0),
        )
        .sort((a, b) => a - b);
    const middle = (values: number[]) => (values[values.length / 2 - 1]! + values[values.length / 2]!) / 2;
    expect(change).toMatchObject({ nBaseline: 40, nWindow: 20 });
    expect(change.baseline).toBeCloseTo(middle(seconds(1, 40)), 9);
    expect(change.window).toBeCloseTo(middle(seconds(41, 60)), 9);
  });

  it('and how much of it the eyes explain', () => {
    const plain = result!.outcome.plain!;
    const said = recordedChangeWords({ ...change, withEyes: Math.log(0.9) }, plain);
    expect(said).toHaveLength(3);
    expect(said[0]).toMatch(/^Median as recorded: .+ in the window \(20 cases\), .+ before \(40\)\.$/);
    expect(said[2]).toBe('The eyes of the window alone would give about 10\u00A0% less time.');
    expect(recordedChangeWords({ ...change, withEyes: 0.002 }, plain)[2]).toBe(
      'The eyes of the two explain hardly any of it.',
    );
    // Facts of the eye make no difference in this month, so what is left of the recorded change is the step's own.
    expect(Math.abs(change.withEyes!)).toBeLessThan(0.1);
  });

  it('is nothing once the cases are gone', () => {
    expect(recordedChange(result!, record.cases.slice(0, 40), record.procedures[0]!)).toBeNull();
  });
});
