import type { EyeFact } from '../model';

/** A label inside a sentence: "capsulorhexis", but "IOL insertion". */
export const inSentence = (label: string): string =>
  /^[A-Z][a-z]/.test(label) ? label.slice(0, 1).toLowerCase() + label.slice(1) : label;

/** A fact of the eye in words: "nucleus hard", "toric lens", "not still", "axial length 23.4 mm". */
export function factPhrase(fact: EyeFact, value: string | number | boolean): string {
  if (fact.kind === 'yes-no') {
    const own = fact.levels?.find(({ id }) => id === (value === true ? 'yes' : 'no'))?.label;
    return own ?? (value === true ? inSentence(fact.label) : `${inSentence(fact.label)}: no`);
  }
  if (fact.kind === 'number') return `${inSentence(fact.label)} ${value}${fact.unit ? ` ${fact.unit}` : ''}`;
  return `${inSentence(fact.label)} ${fact.levels?.find(({ id }) => id === value)?.label ?? value}`;
}
