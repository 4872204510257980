import type { EyeFact, Procedure } from '../../model';
import { parted, type Steps } from '../../turns';
import type { ColumnSet } from '../headings/column';
import { plainWords } from '../labels/plain-words';
import { briefly } from '../ledger';
import { note, type Ask, type Example, type Option } from '../questions';
import { differentCells } from '../table/agreed-cell';
import { yesNo } from '../table/yes-no';
import { weights } from '../weights';
import type { Draft } from './draft';
import { factReader, type FactRead } from './facts';
import { gradeOf, guessedScale, levelOfGrade, scales, type Scale } from './grades';

/** What a word under a fact of the eye became, to be shown once for the file and changed. */
export type ValuePlan = {
  key: string;
  fact: string;
  written: string;
  /** Value to choose, `leave` where nothing is taken. */
  value: string;
  to: string;
  how: 'exact' | 'loose' | 'chosen' | 'none';
  rows: number;
  options: readonly Option[];
};

/** The readers of the facts of one procedure in this file, and what they made of its words. */
export type FactValues = { readers: Map<string, (text: string) => FactRead>; plans: ValuePlan[] };

/** More words than this under one fact are remarks. */
const MOST_SHOWN = 80;

type Use = { written: string; rows: number };

/** Reads every word under the facts once: as chosen, by its grade, or by its name. */
export function* factValues(
  drafts: readonly Draft[],
  procedure: Procedure,
  { set, ours }: { set: ColumnSet; ours: boolean },
  choices: Readonly<Record<string, string>>,
  ask: Ask,
): Steps<FactValues> {
  const readers = new Map<string, (text: string) => FactRead>();
  const plans: ValuePlan[] = [];
  for (const fact of procedure.facts) {
    const column = set.columns.find(({ target }) => target.what === 'fact' && target.id === fact.id);
    const plain = factReader(fact);
    if (!column || ours || fact.kind === 'number') {
      readers.set(fact.id, plain);
      continue;
    }
    const uses = new Map<string, Use>();
    const grades: number[] = [];
    const examples: Example[] = [];
    for (const part of parted(drafts)) {
      yield part.length * weights.row;
      for (const draft of part) {
        if (draft.procedure !== procedure) continue;
        for (const written of differentCells(draft.rows, column)) {
          const key = plainWords(written);
          if (key === '') continue;
          const use = uses.get(key);
          if (use) use.rows += 1;
          else uses.set(key, { written, rows: 1 });
          const grade = gradeOf(fact, written);
          if (grade === null) continue;
          grades.push(grade);
          if (!Number.isInteger(grade) || grade > 4) note(examples, draft.rows[0]?.row ?? 0, written);
        }
      }
    }
    const scale = askScale(grades, examples, column.heading, ask);
    const read = withGrades(fact, plain, scale);
    const chosen = new Map<string, string>();
    const options = optionsOf(fact);
    let shown = 0;
    for (const [key, { written, rows }] of uses) {
      yield weights.name;
      const found = read(written);
      const itself = sayItself(fact, written);
      if (itself || ('value' in found && found.value === null) || shown >= MOST_SHOWN) continue;
      shown += 1;
      const field = `value:${fact.id}:${key}`;
      const answer = choices[field];
      const wanted = answer !== undefined && options.some(({ value }) => value === answer) ? answer : undefined;
      if (wanted !== undefined) chosen.set(key, wanted);
      const value = wanted ?? ('value' in found ? optionOf(fact, found.value) : 'leave');
      plans.push({
        key: field,
        fact: fact.label,
        written: briefly(written),
        value,
        to: options.find((one) => one.value === value)?.label ?? value,
        how: wanted !== undefined ? 'chosen' : 'value' in found ? 'loose' : 'none',
        rows,
        options,
      });
    }
    readers.set(fact.id, (text) => {
      const answer = chosen.get(plainWords(text));
      if (answer === undefined) return read(text);
      return { value: answer === 'leave' ? null : fact.kind === 'yes-no' ? answer === 'yes' : answer };
    });
  }
  return { readers, plans };
}

/** A level by its own label or key, or a plain yes or no: nobody needs to be shown what that became. */
const sayItself = ({ kind, levels = [] }: EyeFact, written: string): boolean =>
  levels.some(({ id, label, key }) => [id, label, key].some((name) => plainWords(name) === plainWords(written))) ||
  (kind === 'yes-no' && yesNo(written) !== undefined);

const optionsOf = ({ kind, levels = [] }: EyeFact): Option[] => [
  ...(kind === 'yes-no'
    ? [
        { value: 'yes', label: levels.find(({ id }) => id === 'yes')?.label ?? 'yes' },
        { value: 'no', label: levels.find(({ id }) => id === 'no')?.label ?? 'no' },
      ]
    : levels.map(({ id, label }) => ({ value: id, label }))),
  { value: 'leave', label: 'not entered' },
];

const optionOf = (fact: EyeFact, value: string | number | boolean | null): string =>
  typeof value === 'boolean' ? (value ? 'yes' : 'no') : String(value ?? 'leave');

function askScale(grades: readonly number[], examples: readonly Example[], heading: string, ask: Ask): Scale | null {
  const guess = guessedScale(grades);
  if (guess === null) return null;
  const answer = ask({
    id: 'grades',
    question: `The grades under "${heading}" go from ${Math.min(...grades)} to ${Math.max(...grades)}. Which scale is it?`,
    options: (Object.keys(scales) as Scale[]).map((scale) => ({ value: scale, label: scales[scale].words })),
    guess,
    examples,
  });
  return answer === 'five' || answer === 'locs' ? answer : 'rounded';
}

function withGrades(fact: EyeFact, plain: (text: string) => FactRead, scale: Scale | null): (text: string) => FactRead {
  return (text) => {
    const grade = gradeOf(fact, text);
    // A file of whole grades to four says the levels themselves, as do words beside the numbers.
    const level = grade === null ? null : levelOfGrade(fact, grade, scale ?? 'rounded');
    if (level !== null && scale !== null) return { value: level };
    const found = plain(text);
    return 'problem' in found && level !== null ? { value: level } : found;
  };
}
