import { readAudit, type AuditReading } from '../../../src/lib/intake';
import type { Case, NewCase } from '../../../src/lib/model';
import { procedures } from './procedures';

export type Choices = Record<string, string>;

export const read = (text: string, choices: Choices = {}, existing: readonly Case[] = []): AuditReading =>
  readAudit({ text, fileName: 'invented.csv', procedures, choices, existing });

export const readBytes = (bytes: Uint8Array, fileName = 'invented.csv'): AuditReading =>
  readAudit({ bytes, fileName, procedures });

/** Seconds of a step's own stretches, in order. */
export const lengths = (one: NewCase | undefined, stepId: string): number[] =>
  (one?.stretches ?? [])
    .filter((stretch) => stretch.stepId === stepId && stretch.kind === 'step')
    .map(({ seconds }) => seconds);

export const steps = (one: NewCase | undefined): (string | null)[] =>
  (one?.stretches ?? []).map(({ stepId }) => stepId);

export const question = (reading: AuditReading, id: string) => reading.questions.find((one) => one.id === id);

/** One case in the trade's order, all lengths made up. */
export const plainCase = (code: string): string =>
  [
    `${code},Paracentesis and incision,0,20`,
    `${code},Visco,20,30`,
    `${code},CCC,30,70`,
    `${code},Hydro,70,95`,
    `${code},Phaco,95,260`,
    `${code},I/A,260,310`,
    `${code},Visco,310,320`,
    `${code},IOL,320,350`,
    `${code},I/A,350,380`,
    `${code},Hydration,380,400`,
  ].join('\n');
