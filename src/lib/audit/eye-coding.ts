import type { EyeFact, FactValue, Procedure } from '../model';

/** Anything that carries facts of the eye: a case, a reference case. */
export type WithFacts = { facts: Readonly<Record<string, FactValue>> };

/**
 * How one column of the design is read from the facts of a case. The name says it all, so that a list of names
 * fixed when a goal starts codes later cases the same way:
 * `nucleus=hard/medium` (hard against the commonest, medium), `nucleus=*\/medium` (any level without a column of its own),
 * `toric` (yes against no), `axial-length` (a number), `pupil not entered`.
 */
export type Coding = { name: string; fact: EyeFact } & (
  | { kind: 'level'; level: string; commonest: string }
  | { kind: 'other'; commonest: string }
  | { kind: 'plain' | 'missing' }
);

const OTHER = '*';

export const levelCoding = (fact: EyeFact, level: string, commonest: string): Coding => ({
  kind: 'level',
  name: `${fact.id}=${level}/${commonest}`,
  fact,
  level,
  commonest,
});
export const otherCoding = (fact: EyeFact, commonest: string): Coding => ({
  kind: 'other',
  name: `${fact.id}=${OTHER}/${commonest}`,
  fact,
  commonest,
});
export const missingCoding = (fact: EyeFact): Coding => ({ kind: 'missing', name: `${fact.id} not entered`, fact });
export const plainCoding = (fact: EyeFact): Coding => ({ kind: 'plain', name: fact.id, fact });

/** The fact a column belongs to, by its name. */
export const factIdOf = (name: string): string => name.replace(/( not entered|=.*)$/, '');

/** The coding a name stands for; `null` where the procedure no longer has the fact. */
export function codingOf(name: string, procedure: Procedure): Coding | null {
  const factId = factIdOf(name);
  const fact = procedure.facts.find(({ id }) => id === factId);
  if (!fact) return null;
  if (name.endsWith(' not entered')) return missingCoding(fact);
  const [level, commonest] = name.slice(factId.length + 1).split('/');
  if (!level || commonest === undefined) return plainCoding(fact);
  return level === OTHER ? otherCoding(fact, commonest) : levelCoding(fact, level, commonest);
}

/** yes, no, or `null` for anything that cannot be read as one of them. */
export function asYesNo(value: FactValue | undefined): boolean | null {
  if (value === true || value === 1 || value === 'yes') return true;
  if (value === false || value === 0 || value === 'no') return false;
  return null;
}

export function asNumber(value: FactValue | undefined): number | null {
  return typeof value === 'number' && Number.isFinite(value) ? value : null;
}

export function asLevel(value: FactValue | undefined): string | null {
  return value === undefined || value === '' ? null : String(value);
}

/** The value of a fact in the kind the procedure gives it; `null` where it was not entered. */
export function factOf(holder: WithFacts, fact: EyeFact): string | number | boolean | null {
  const value = holder.facts[fact.id];
  return fact.kind === 'number' ? asNumber(value) : fact.kind === 'yes-no' ? asYesNo(value) : asLevel(value);
}

/**
 * Raw value of a column for one case; a missing fact takes the value of the typical case (`centre`).
 *
 * @param named levels of this fact that have a column of their own.
 */
export function codedValue(coding: Coding, holder: WithFacts, centre: number, named: ReadonlySet<string>): number {
  const value = factOf(holder, coding.fact);
  switch (coding.kind) {
    case 'plain':
      return value === null ? centre : Number(value);
    case 'missing':
      return value === null ? 1 : 0;
    case 'level':
      return value === coding.level ? 1 : 0;
    case 'other':
      return value === null || value === coding.commonest || named.has(String(value)) ? 0 : 1;
  }
}
