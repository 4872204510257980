import type { Case, ListRecord } from '../model';
import { auditThresholds } from './thresholds';

export type ListNumbers = { list: Int32Array; listCount: number; listsFrom: 'lists' | 'dates' | 'blocks' };

/**
 * Numbers the lists of some cases, in order of time, for resampling. Cases without a list are taken
 * eight neighbours at a time. A list known only by its date is a date.
 *
 * @param cases in order of time.
 */
export function listNumbers(cases: readonly Case[], lists: readonly ListRecord[]): ListNumbers {
  const records = new Map(lists.map((record) => [record.id, record]));
  const numbers = new Map<string, number>();
  const list = new Int32Array(cases.length);
  let listCount = 0;
  let known = 0;
  let dated = 0;
  let inBlock: number = auditThresholds.blockSize;
  let block = 0;
  cases.forEach((case_, index) => {
    if (case_.listId === null) {
      if (inBlock === auditThresholds.blockSize) {
        block = listCount++;
        inBlock = 0;
      }
      list[index] = block;
      inBlock += 1;
      return;
    }
    known += 1;
    const record = records.get(case_.listId);
    if (record && record.label === null && record.when.kind === 'date') dated += 1;
    let number = numbers.get(case_.listId);
    if (number === undefined) numbers.set(case_.listId, (number = listCount++));
    list[index] = number;
    inBlock = auditThresholds.blockSize;
  });
  const listsFrom = known * 2 < cases.length || known === 0 ? 'blocks' : dated === known ? 'dates' : 'lists';
  return { list, listCount, listsFrom };
}
