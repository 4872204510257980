import { inSentence } from './text';

/** What the words need of a fact of the eye. */
type Fact = {
  kind: 'yes-no' | 'level' | 'number' | (string & {});
  label: string;
  levels?: readonly { id: string; label: string }[] | undefined;
  unit?: string | undefined;
};

/** A fact of the eye in words: "nucleus hard", "toric lens", "small pupil: no", "axial length 23.4 mm". */
export function factPhrase(fact: Fact, value: string | number | boolean): string {
  if (fact.kind === 'yes-no') {
    const own = fact.levels?.find(({ id }) => id === (value === true ? 'yes' : 'no'))?.label;
    return own ?? (value === true ? inSentence(fact.label) : `${inSentence(fact.label)}: no`);
  }
  if (fact.kind === 'number') return `${inSentence(fact.label)} ${value}${fact.unit ? ` ${fact.unit}` : ''}`;
  return `${inSentence(fact.label)} ${fact.levels?.find(({ id }) => id === value)?.label ?? value}`;
}
