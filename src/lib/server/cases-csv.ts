import { hiddenCaseIds } from '../assessment/hidden-times';
import { procedureOf } from '../assessment/record';
import type { WriteOptions } from '../intake';
import type { Case } from '../model';
import type { Work } from '../turns';
import { inTurns } from './in-turns';
import { readRecord } from './record';
import type { Store } from './storage/port';

/**
 * Cases of one procedure as a CSV file to download. Months stand in place of dates unless `dates=day` is asked for.
 * Cases of a running window are left out: a file that shows their times would show them to the surgeon too.
 */
export async function casesCsv(
  store: Store,
  url: URL,
  name: string,
  writing: (cases: readonly Case[], options: WriteOptions) => Work<string>,
): Promise<Response> {
  const record = await readRecord(store);
  const used = record.procedures.filter(({ id }) => record.cases.some((one) => one.procedureId === id));
  const asked = url.searchParams.get('procedure') ?? record.profile.procedureId;
  const procedure = used.find(({ id }) => id === asked) ?? used[0] ?? procedureOf(record, asked);
  const hidden = hiddenCaseIds(record);
  const cases = record.cases.filter(({ id, procedureId }) => procedureId === procedure.id && !hidden.has(id));
  const dates = url.searchParams.get('dates') === 'day' ? 'day' : 'month';
  const csv = await inTurns(writing(cases, { procedure, lists: record.lists, dates }));
  return new Response(csv, {
    headers: {
      'content-type': 'text/csv; charset=utf-8',
      'content-disposition': `attachment; filename="${name}-${procedure.id}.csv"`,
      'cache-control': 'no-store',
    },
  });
}
