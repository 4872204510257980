import type { EyeFact, FactValue, Procedure } from '../../model';
import type { Steps } from '../../turns';
import { readHeadings } from '../headings/read-headings';
import { factReader } from './facts';
import { factsOfLetters, moreFacts, readLetters } from './more-facts';

/** The ledger's words, marked as of the second file; its rows are not rows of the first. */
export type Say = (row: number | null, column: string | null, value: string | null, why: string) => void;

export type FactColumn = {
  index: number;
  heading: string;
  read: (text: string) => { facts: Record<string, FactValue> } | { problem: string };
};

function oneFact(fact: EyeFact): FactColumn['read'] {
  const read = factReader(fact);
  return (text) => {
    const found = read(text);
    if ('problem' in found) return found;
    return { facts: found.value === null ? {} : { [fact.id]: found.value } };
  };
}

function lettered(procedure: Procedure): FactColumn['read'] {
  const more = moreFacts(procedure);
  return (text) => {
    const found = readLetters(text, more);
    if ('problem' in found) return found;
    return { facts: found.letters === null ? {} : factsOfLetters(found.letters, more) };
  };
}

/** What the columns of the second file hold. `null`: none says which case a row belongs to, which is said. */
export function* factColumns(
  cells: readonly string[],
  procedure: Procedure,
  say: Say,
): Steps<{ code: number; facts: FactColumn[]; unknown: string[] } | null> {
  const headings = yield* readHeadings(cells, procedure, 'stretches', {});
  const targets = headings.map(({ match }) => match?.targets[0]);
  const code = targets.findIndex((target) => target?.what === 'own' && target.id === 'case');
  if (code < 0) {
    say(1, null, null, 'a column case_id is needed, to join by.');
    return null;
  }
  const beside: string[] = [];
  const unknown: string[] = [];
  const facts = headings.flatMap(({ text: heading }, index): FactColumn[] => {
    const target = targets[index];
    const fact = target?.what === 'fact' ? procedure.facts.find(({ id }) => id === target.id) : undefined;
    if (fact) return [{ index, heading, read: oneFact(fact) }];
    if (target?.what === 'own' && target.id === 'more') return [{ index, heading, read: lettered(procedure) }];
    if (target?.what === 'own' && index !== code) beside.push(heading);
    else if (index !== code && heading !== '') {
      unknown.push(heading);
      say(
        1,
        heading,
        null,
        `"${heading}" is not a known fact of the eye for ${procedure.name.toLowerCase()}; the column is left out.`,
      );
    }
    return [];
  });
  if (beside.length > 0)
    say(
      1,
      null,
      null,
      `only facts of the eye are joined, so ${beside.map((heading) => `"${heading}"`).join(', ')} ${beside.length === 1 ? 'is' : 'are'} left out. Put whose hands, events and lists into the file of times.`,
    );
  return { code, facts, unknown };
}
