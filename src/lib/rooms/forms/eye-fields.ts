import { factsOfLetters, moreFacts, readLetters, type MoreFact } from '../../intake';
import type { Case, EyeFact, FactValue, Procedure } from '../../model';
import { textOf, type FieldError, type Fields } from './fields';

/** One fact asked in a field of its own: a choice by one key, or a number. */
export type EyeField = {
  factId: string;
  label: string;
  kind: 'choice' | 'number';
  options: readonly { value: string; label: string; key: string }[];
  unit: string | null;
};

/** The facts asked of an eye: fields of their own, and letters under "anything else". */
export type EyeFields = {
  row: readonly EyeField[];
  more: readonly MoreFact[];
};

type Facts = Readonly<Record<string, FactValue>>;

/** Marks facts filled in by "as usual for me": stored beside the values, so that they can be told from looked-at ones. */
export const AS_USUAL = 'as-usual';
/** Entries of a fact before "usual for me" means anything. */
const USUAL_FROM = 5;

const YES_NO = [
  { id: 'yes', label: 'yes', key: 'Y' },
  { id: 'no', label: 'no', key: 'N' },
];

function fieldOf(fact: EyeFact): EyeField {
  const levels = fact.levels ?? (fact.kind === 'yes-no' ? YES_NO : []);
  return {
    factId: fact.id,
    label: fact.label,
    kind: fact.kind === 'number' ? 'number' : 'choice',
    options: levels.map(({ id, label, key }) => ({ value: id, label, key })),
    unit: fact.unit ?? null,
  };
}

/** What is asked of an eye in this procedure; facts accepted from files only are not. */
export function eyeFields(procedure: Procedure): EyeFields {
  return {
    row: procedure.facts.filter(({ asked }) => asked === 'row').map(fieldOf),
    more: moreFacts(procedure),
  };
}

/** The facts of one case as the texts of its form fields, by fact id; `more` for the letters. '' where not entered. */
export function factTexts(facts: Facts, procedure: Procedure): Record<string, string> {
  const { row, more } = eyeFields(procedure);
  const texts: Record<string, string> = {};
  for (const { factId } of row) {
    const value = facts[factId];
    texts[factId] = value === undefined ? '' : value === true ? 'yes' : value === false ? 'no' : String(value);
  }
  const letters = more.filter(({ factId }) => facts[factId] === true).map(({ key }) => key);
  const answered = more.some(({ factId }) => facts[factId] !== undefined);
  texts.more = letters.length > 0 ? letters.join('') : answered ? '0' : '';
  return texts;
}

/**
 * Facts as typed in a form, names prefixed. A field left empty is not in the answer: not entered, never a default.
 *
 * @param fallback fact values kept as they are because no form asks for them (facts from files).
 */
export function factsFromForm(
  fields: Fields,
  prefix: string,
  procedure: Procedure,
  fallback: Facts = {},
): { facts: Record<string, FactValue>; errors: FieldError[] } {
  const { row, more } = eyeFields(procedure);
  const asked = new Set([...row, ...more].map(({ factId }) => factId));
  const facts = Object.fromEntries(Object.entries(fallback).filter(([id]) => !asked.has(id) && id !== AS_USUAL));
  const errors: FieldError[] = [];

  for (const field of row) {
    const name = `${prefix}${field.factId}`;
    const text = textOf(fields, name);
    if (text === '') continue;
    const value = valueOf(field, text, procedure);
    if (value === null)
      errors.push({ field: name, message: `${field.label}: "${text}" is not one of the answers. Nothing was stored.` });
    else facts[field.factId] = value;
  }

  const found = readLetters(textOf(fields, `${prefix}more`), more);
  if ('problem' in found) errors.push({ field: `${prefix}more`, message: `Anything else: ${found.problem}` });
  else if (found.letters !== null) Object.assign(facts, factsOfLetters(found.letters, more));

  if (textOf(fields, `${prefix}${AS_USUAL}`) === 'yes') facts[AS_USUAL] = true;
  return { facts, errors };
}

function valueOf(field: EyeField, text: string, procedure: Procedure): FactValue | null {
  if (field.kind === 'number') {
    const number = Number(text.replace(',', '.'));
    return Number.isFinite(number) ? number : null;
  }
  if (!field.options.some(({ value }) => value === text)) return null;
  const yesNo = procedure.facts.find(({ id }) => id === field.factId)?.kind === 'yes-no';
  return yesNo ? text === 'yes' : text;
}

/** The surgeon's usual eye, as form texts: the commonest entry of each fact, where at least five cases have one. */
export function usualTexts(cases: readonly Case[], procedure: Procedure): Record<string, string> {
  const own = cases.filter((one) => one.procedureId === procedure.id).map((one) => factTexts(one.facts, procedure));
  const names = [...eyeFields(procedure).row.map(({ factId }) => factId), 'more'];
  return Object.fromEntries(
    names.map((name) => {
      const counts = new Map<string, number>();
      for (const texts of own) if (texts[name]) counts.set(texts[name], (counts.get(texts[name]) ?? 0) + 1);
      const [commonest] = [...counts].sort((a, b) => b[1] - a[1] || (a[0] < b[0] ? -1 : 1));
      const entered = [...counts.values()].reduce((sum, count) => sum + count, 0);
      return [name, entered >= USUAL_FROM && commonest ? commonest[0] : ''];
    }),
  );
}

/** Facts in words, as they stand on a row: "hard, pupil small, floppy iris". '' where none was entered. */
export function factsLine(facts: Facts, procedure: Procedure): string {
  const words = procedure.facts.flatMap((fact) => {
    const value = facts[fact.id];
    if (value === undefined) return [];
    const lower = fact.label.charAt(0).toLowerCase() + fact.label.slice(1);
    if (fact.kind === 'number') return [`${lower} ${value}${fact.unit ? ` ${fact.unit}` : ''}`];
    if (fact.kind === 'yes-no') {
      const level = fact.levels?.find(({ id }) => id === (value === true ? 'yes' : value === false ? 'no' : value));
      // "Toric: no" on every row would hide what is there, so only an answer with words of its own, or a yes, is told.
      if (level) return [level.label];
      return value === true ? [lower] : [];
    }
    return [`${lower} ${fact.levels?.find(({ id }) => id === value)?.label ?? String(value)}`];
  });
  return words.join(', ');
}

/** One fact's value in words; `null` is "not entered". */
export function factValueWords(fact: EyeFact | undefined, value: FactValue | null): string {
  if (value === null) return 'not entered';
  if (value === true || value === false)
    return fact?.levels?.find(({ id }) => id === (value ? 'yes' : 'no'))?.label ?? (value ? 'yes' : 'no');
  return fact?.levels?.find(({ id }) => id === value)?.label ?? `${value}${fact?.unit ? ` ${fact.unit}` : ''}`;
}

/** Fields of their own that were not entered in this case. */
export function missingFacts(one: Pick<Case, 'facts'>, procedure: Procedure): string[] {
  return eyeFields(procedure)
    .row.filter(({ factId }) => one.facts[factId] === undefined)
    .map(({ label }) => label);
}
