import type { Case, Reflection } from '../../model';
import { kindOf, type DocumentName, type Documents } from './documents';
import type { Forgotten } from './shelf';

/** A reflection without its ties to these cases; its text is about what was learned, and stays. */
export const untied = (reflection: Reflection, ids: { has(id: string): boolean }): Reflection => ({
  ...reflection,
  caseIds: reflection.caseIds.filter((id) => !ids.has(id)),
  answers: reflection.answers.filter(({ caseId }) => !ids.has(caseId)),
  protectedSeen: reflection.protectedSeen.filter(({ caseId }) => !ids.has(caseId)),
  version: reflection.version + 1,
});

export const isTied = ({ caseIds, answers, protectedSeen }: Reflection, ids: { has(id: string): boolean }): boolean =>
  [...caseIds, ...[...answers, ...protectedSeen].map(({ caseId }) => caseId)].some((id) => ids.has(id));

type Recorded = Extract<Documents[`imports/${string}`], { state: 'recorded' }>;

/** What an import remembers, without these cases. */
export const importWithout = ({ record, before }: Recorded, ids: { has(id: string): boolean }): Recorded => ({
  state: 'recorded',
  record: {
    ...record,
    added: record.added.filter((id) => !ids.has(id)),
    replaced: record.replaced.filter((id) => !ids.has(id)),
  },
  before: before.filter(({ id }) => !ids.has(id)),
});

/** A document as it would be had these cases never been in it. */
export function withoutCases(name: DocumentName, document: object, gone: Forgotten): object {
  switch (kindOf(name)) {
    case 'cases': {
      const shard = document as { records: readonly Case[] };
      return { ...shard, records: shard.records.filter(({ id }) => !gone.has(id)) };
    }
    case 'reflections': {
      const shard = document as { records: readonly Reflection[] };
      return { ...shard, records: shard.records.map((each) => (isTied(each, gone) ? untied(each, gone) : each)) };
    }
    case 'imports':
      return (document as Recorded).state === 'recorded' ? importWithout(document as Recorded, gone) : document;
    default:
      return document;
  }
}
