import { itemAt } from '../../item-at';
import { parted, type Steps } from '../../turns';
import { note, type Ask, type Example } from '../questions';
import { intakeThresholds } from '../thresholds';
import { weights } from '../weights';

/**
 * Lengths or clock readings? Rows that only rise are readings: for lengths that is a chance of 1 in n! a row.
 *
 * @param rows values of each row (or case), in order, blanks taken out.
 */
export function* areReadings(rows: readonly { row: number; values: readonly number[] }[], ask: Ask): Steps<boolean> {
  let [evidence, falls] = [0, false];
  const examples: Example[] = [];
  for (const part of parted(rows)) {
    yield part.length * weights.row;
    for (const { row, values } of part) {
      if (falls || values.length < intakeThresholds.riseLength) continue;
      falls = values.some((value, index) => index > 0 && value <= itemAt(values, index - 1));
      evidence += values.reduce((log, _, index) => log + Math.log(index + 1), 0);
      note(examples, row, values.slice(0, 6).join(' · '));
    }
  }
  if (falls || evidence < intakeThresholds.riseEvidence) return false;
  return (
    ask({
      id: 'readings',
      question: 'The numbers only rise. Are they lengths, or clock readings?',
      options: [
        { value: 'readings', label: 'readings: each says when its step ended, from 0 at the start' },
        { value: 'lengths', label: 'lengths of each step' },
      ],
      guess: 'readings',
      examples,
    }) === 'readings'
  );
}
