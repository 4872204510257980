import type { Hands } from '../../model';
import { parted, type Steps } from '../../turns';
import type { Context } from '../context';
import type { Table } from '../headings/table';
import { plainWords } from '../labels/plain-words';
import { note, type Example } from '../questions';
import type { Row } from '../table/cells';
import { intakeThresholds } from '../thresholds';
import { weights } from '../weights';
import { HANDS_CALLED, readHands, ROLES } from './hands';

/** What the words of a file for hands mean, by the words in plain letters, as far as it was said. */
export type HandWords = ReadonlyMap<string, Hands>;

type Unknown = { text: string; rows: number; examples: Example[] };

/** Words for hands that nobody knows, or that may be the surgeon's own place, are asked about with the words of the file. */
export function* handWords(table: Table, { ask }: Pick<Context, 'ask'>): Steps<HandWords> {
  const answers = new Map<string, Hands>();
  const columns = handColumns(table);
  if (columns.length === 0) return answers;
  const unknown = new Map<string, Unknown>();
  for (const part of parted(table.body)) {
    yield part.length * weights.row;
    for (const { row, cells } of part)
      for (const index of columns) {
        const text = cells[index] ?? '';
        const words = plainWords(text);
        if (words === '' || (readHands(text) !== undefined && !ROLES.includes(words))) continue;
        const found = unknown.get(words) ?? { text, rows: 0, examples: [] };
        found.rows += 1;
        note(found.examples, row, text);
        unknown.set(words, found);
      }
  }
  const often = [...unknown].sort(([, one], [, other]) => other.rows - one.rows);
  for (const [words, { text, examples }] of often.slice(0, intakeThresholds.handWords)) {
    const answer = ask({
      id: `hands:${words}`,
      question: `Whose hands does "${text}" mean?`,
      options: [
        ...(Object.keys(HANDS_CALLED) as Hands[]).map((value) => ({ value, label: HANDS_CALLED[value] })),
        { value: 'unknown', label: 'not known: taken as shared' },
      ],
      guess: readHands(text) ?? 'unknown',
      examples,
    });
    if (answer !== 'unknown') answers.set(words, answer as Hands);
  }
  return answers;
}

/** The rows with what was said in place of those words. */
export function withHandWords(table: Table, answers: HandWords): Table {
  if (answers.size === 0) return table;
  const columns = handColumns(table);
  const said = (row: Row): Row => {
    const cells = [...row.cells];
    for (const index of columns) {
      const hands = answers.get(plainWords(cells[index] ?? ''));
      if (hands) cells[index] = HANDS_CALLED[hands];
    }
    return { ...row, cells };
  };
  return { ...table, body: table.body.map(said) };
}

/** A list sheet has keys of its own under its hands. */
const handColumns = ({ set, layout, ours }: Table): number[] =>
  layout === 'sheet' || ours
    ? []
    : set.columns.flatMap(({ index, target }) =>
        target.what === 'step-hands' || (target.what === 'own' && /^(case-)?hands$/.test(target.id)) ? [index] : [],
      );
