export { parseDuration, type Duration, type PlainNumber } from './duration';
export { readAudit, readAuditInSlices, type AuditInput, type AuditReading } from './read-audit';
export type { Mapping } from './mapping';
export type { Question, Option } from './questions';
export type { ReferenceDraft } from './in-lists';
export type { KnownCase } from './known-cases';
export type { NewList } from './lists';
export {
  writeCases,
  writeSheet,
  writeStretches,
  writingCases,
  writingStretches,
  type WriteOptions,
} from './write-cases';
export { hasClockReadings, writeChapters } from './chapters';
export { liesAhead } from './when';
export { isMonthAlone } from './events';
export { harmless } from './harmless';
export { briefly } from './ledger';
export { textPointsToAPerson, codePointsToAPatient } from './people';
export { factReader, type FactRead } from './facts';
export type { FactsFile } from './join-facts';
export { factsOfLetters, moreFacts, readLetters, type MoreFact } from './more-facts';
