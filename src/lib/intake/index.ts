export { parseDuration, type Duration, type PlainNumber } from './table/duration';
export { readAudit, readAuditInSlices, type AuditInput, type AuditReading } from './read-audit';
export { readTogether, type PartInput, type Together } from './together';
export type { Mapping } from './headings/mapping';
export type { Question, Option } from './questions';
export type { RowsRead } from './rows-read';
export type { RunningStep } from './running-steps';
export { leftRowsText, ROWS_LEFT, rowsLeft } from './table/rows-left';
export type { ReferenceDraft } from './cases/references';
export type { KnownCase } from './cases/known-cases';
export type { NewList } from './cases/lists';
export {
  writeCases,
  writeSheet,
  writeStretches,
  writingCases,
  writingStretches,
  type WriteOptions,
} from './write/write-cases';
export { hasClockReadings, writeChapters } from './stretches/chapters';
export { dateIsUnclear, dateOrderOf, readDate, type DateOrder } from './table/dates';
export { liesAhead } from './table/when';
export { isMonthAlone } from './cases/events';
export { harmless } from './table/harmless';
export { briefly } from './ledger';
export { withoutPeople, type TakenOut, type WithoutPeople } from './people-out/without-people';
export { textPointsToAPerson, codePointsToAPatient } from './table/people';
export { factReader, type FactRead } from './cases/facts';
export { factsOfLetters, moreFacts, readLetters, type MoreFact } from './cases/more-facts';
