import { dataQueries, unitQuery, type DataQueryReason } from '../../audit';
import type { AuditReading } from '../../intake';
import { type Case, type Problem, type Procedure, procedureOf, type SurgeonRecord } from '../../model';
import type { Work } from '../../turns';
import { recordFromReading } from '../../assess/from-reading';
import { dataQueryWords } from '../../words/data-queries';
import { hiddenCaseIds } from '../goals/hidden-times';
import type { ImportPlan } from '../bring-in/import-plan';

/** What is asked about in the cases of one file, taken alone: by row, in the order of the file. */
export function* oddInFile(
  reading: Pick<AuditReading, 'cases' | 'lists' | 'references' | 'procedureId'>,
  procedures: readonly Procedure[],
): Work<Problem[]> {
  const procedure = procedures.find(({ id }) => id === reading.procedureId);
  if (!procedure) return [];
  const { cases } = recordFromReading(reading, procedure);
  return problemsOf(unitQuery(cases), yield* dataQueries(cases, procedure));
}

/**
 * What is asked about before an import is taken: only in cases that it adds or changes; the record and the file together
 * say what is usual. Times of a running window say nothing yet.
 */
export function* oddInImport(
  plan: Pick<ImportPlan, 'cases' | 'replace'>,
  reading: Pick<AuditReading, 'lists' | 'procedureId'>,
  record: SurgeonRecord,
): Work<Problem[]> {
  const procedure = record.procedures.find(({ id }) => id === reading.procedureId);
  if (!procedure) return [];
  const replaced = new Set(plan.replace.map(({ caseId }) => caseId));
  const brought = [...plan.cases, ...plan.replace.map((each) => each.case)];
  const { cases } = recordFromReading({ cases: brought, lists: reading.lists, references: [] }, procedure);
  const asked = new Set(cases);
  const there = inSight(record).filter(({ id }) => !replaced.has(id));
  const found = yield* dataQueries([...there, ...cases], procedure, (one) => asked.has(one));
  return problemsOf(unitQuery(cases), found);
}

/** What is asked about in one case of the record, a sentence each; nothing while its times are hidden. */
export function* oddInCase(one: Case, record: SurgeonRecord): Work<string[]> {
  const found = yield* dataQueries(inSight(record), procedureOf(record, one.procedureId), (each) => each === one);
  return found.map(({ why }) => dataQueryWords(why));
}

const problemsOf = (
  unit: DataQueryReason | null,
  found: readonly { row: number | null; why: DataQueryReason }[],
): Problem[] =>
  [...(unit ? [{ row: null, why: unit }] : []), ...found].map(({ row, why }) => ({
    row,
    column: null,
    value: null,
    why: dataQueryWords(why),
    weight: 'queried',
  }));

function inSight(record: SurgeonRecord): Case[] {
  const hidden = hiddenCaseIds(record);
  return record.cases.filter(({ id }) => !hidden.has(id));
}
