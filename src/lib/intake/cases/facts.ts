import type { EyeFact, FactValue } from '../../model';
import { toNumber } from '../table/duration';
import { nameIndex, nameMatcher } from '../labels/name-matcher';
import { oncePer } from '../labels/once-per';
import { yesNo } from '../table/yes-no';

/** `null`: not entered. */
export type FactRead = { value: FactValue | null } | { problem: string };

const levelIndex = oncePer((fact: EyeFact) =>
  nameIndex(
    (fact.levels ?? []).map((level) => ({
      value: level.id,
      names: [level.id, level.label, ...(level.synonyms ?? [])],
    })),
  ),
);

/** Reads a fact of the eye: a level by its name, its key or what people write for it; yes or no; a number. */
export function factReader(fact: EyeFact): (text: string) => FactRead {
  if (fact.kind === 'number') return (text) => readNumber(fact, text);
  const levels = fact.levels ?? [];
  const match = nameMatcher(levelIndex(fact));
  const byKey = new Map(levels.map((level) => [level.key.toLowerCase(), level.id]));
  return (text) => {
    const answer = yesNo(text);
    if (fact.kind === 'yes-no' && answer !== undefined) return { value: answer };
    if (answer === null) return { value: null };
    const key = byKey.get(text.trim().replace(/\.0+$/, '').toLowerCase());
    const found = match(text);
    const id = key ?? (found.how === 'exact' || found.how === 'loose' ? found.values[0] : undefined);
    if (id === undefined || (found.values.length > 1 && key === undefined)) return { problem: whyNot(fact, text) };
    return { value: fact.kind === 'yes-no' ? id === 'yes' : id };
  };
}

function readNumber(fact: EyeFact, text: string): FactRead {
  if (yesNo(text) === null) return { value: null };
  const number = /^(\d+(?:[.,]\d+)?)\s*(?:mm)?$/i.exec(text.trim())?.[1];
  return number === undefined ? { problem: whyNot(fact, text) } : { value: toNumber(number) };
}

function whyNot(fact: EyeFact, text: string): string {
  const can =
    fact.kind === 'number'
      ? 'a number'
      : fact.kind === 'yes-no'
        ? 'yes or no'
        : (fact.levels ?? []).map((level) => level.label).join(', ');
  return `"${text}" is not known for ${fact.label.toLowerCase()} (${can}). Correct it, or it is left as not entered.`;
}
