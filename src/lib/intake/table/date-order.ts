import { parted, type Steps } from '../../turns';
import { cellOf, type Column } from '../headings/column';
import { note, type Ask, type Example } from '../questions';
import { weights } from '../weights';
import type { Row } from './cells';
import { dateIsUnclear, dateOrderOf, type DateOrder } from './dates';

/** Day before month? Settled by any date that can be read one way only, else asked once a file. */
export function* dateOrder(rows: readonly Row[], column: Column | undefined, ask: Ask): Steps<DateOrder> {
  if (!column) return 'dmy';
  const examples: Example[] = [];
  let settled: DateOrder | null = null;
  for (const part of parted(rows)) {
    yield part.length * weights.row;
    for (const row of part) {
      const text = cellOf(row, column);
      settled ??= dateOrderOf(text);
      if (dateIsUnclear(text)) note(examples, row.row, text);
    }
  }
  const [first] = examples;
  if (settled !== null || !first) return settled ?? 'dmy';
  const answer = ask({
    id: 'date-order',
    question: `Is ${first.text} day before month, or month before day?`,
    options: [
      { value: 'dmy', label: 'day before month' },
      { value: 'mdy', label: 'month before day' },
    ],
    guess: 'dmy',
    examples,
  });
  return answer === 'mdy' ? 'mdy' : 'dmy';
}
