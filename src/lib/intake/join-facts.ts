import type { NewCase, Problem, Procedure } from '../model';
import { cellsOf } from './cells';
import { factReader } from './facts';
import { nameIndex, nameMatcher } from './name-matcher';
import { plainWords } from './plain-words';

/**
 * Facts of the eye from a second file (`case_id` and one column a fact), joined by code. A fact already given and
 * different is a problem and stays as it was; a code not among the cases, a column no fact knows, a value no fact has: named.
 */
export function joinFacts(
  cases: readonly NewCase[],
  text: string,
  procedure: Procedure,
): { cases: NewCase[]; problems: Problem[] } {
  const problems: Problem[] = [];
  const [head, ...rows] = cellsOf(text).rows;
  const say = (row: number | null, column: string | null, value: string | null, why: string) =>
    problems.push({ row, column, value, why, weight: 'refused' });
  const headings = head?.cells ?? [];
  const codeAt = headings.findIndex((heading) =>
    ['case id', 'case', 'code', 'case code'].includes(plainWords(heading)),
  );
  if (codeAt < 0) {
    say(1, null, null, 'The facts file needs a column case_id to be joined by.');
    return { cases: [...cases], problems };
  }
  const match = nameMatcher(
    nameIndex(procedure.facts.map((fact) => ({ value: fact.id, names: [fact.id, fact.label, ...fact.synonyms] }))),
  );
  const columns = headings.flatMap((heading, index) => {
    if (index === codeAt || heading === '') return [];
    const found = match(heading);
    const fact = found.values.length === 1 ? procedure.facts.find(({ id }) => id === found.values[0]) : undefined;
    if (!fact)
      say(1, heading, null, `"${heading}" is no fact of the eye known for ${procedure.name}; the column is left out.`);
    return fact ? [{ index, heading, fact, read: factReader(fact) }] : [];
  });
  const byCode = new Map(cases.map((one) => [one.code, { ...one, facts: { ...one.facts } }]));
  for (const { row, cells } of rows) {
    const code = cells[codeAt] ?? '';
    const one = byCode.get(code);
    if (!one) {
      say(row, headings[codeAt] ?? null, code, 'No case with this code is in the file of times.');
      continue;
    }
    for (const { index, heading, fact, read } of columns) {
      const cell = cells[index] ?? '';
      if (cell === '') continue;
      const found = read(cell);
      if ('problem' in found) say(row, heading, cell, found.problem);
      else if (found.value !== null) {
        const before = one.facts[fact.id];
        if (before !== undefined && before !== found.value)
          say(row, heading, cell, `The file of times says ${String(before)} for this case; that is kept.`);
        else one.facts[fact.id] = found.value;
      }
    }
  }
  return { cases: [...byCode.values()], problems };
}
