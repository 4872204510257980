import { counted, listed } from '../../format';
import type { Case, EyeFact, ListRecord, Procedure } from '../../model';
import { median } from '../../statistics';

/** One thing that may differ between two stretches, in counts of each. */
export type Between = { what: string; earlier: string; later: string };

/**
 * Eyes, hands and lists of two stretches side by side, in counts: what may lie behind a change beside a change. Facts
 * entered in no case of either are left out; each count is of the cases in which the fact was entered. Nothing stands
 * beside a stretch without a case.
 */
export function between(
  procedure: Procedure,
  lists: readonly ListRecord[],
  earlier: readonly Case[],
  later: readonly Case[],
): Between[] {
  if (earlier.length === 0 || later.length === 0) return [];
  const rows: Between[] = [];
  const add = (what: string, of: (cases: readonly Case[]) => string | null) => {
    const [a, b] = [of(earlier), of(later)];
    if (a !== null || b !== null) rows.push({ what, earlier: a ?? 'not entered', later: b ?? 'not entered' });
  };
  for (const fact of procedure.facts) factRows(fact).forEach(({ what, of }) => add(what, of));
  add('Hands: the whole operation by your own', (cases) => share(cases, ({ hands }) => allMine(hands)));
  const own = (cases: readonly Case[]) => {
    const ids = new Set(cases.map(({ listId }) => listId));
    return lists.filter(({ id }) => ids.has(id));
  };
  add('Lists', (cases) => (own(cases).length > 0 ? String(own(cases).length) : null));
  add('Lists with teaching', (cases) => {
    const said = own(cases).filter(({ teaching }) => teaching !== null);
    return said.length > 0 ? ofThose(said.filter(({ teaching }) => teaching).length, said.length) : null;
  });
  for (const what of ['machine', 'anaesthesia'] as const)
    add(what === 'machine' ? 'Machine' : 'Anaesthesia', (cases) =>
      tally(own(cases).flatMap((list) => list[what] ?? [])),
    );
  return rows;
}

type Row = { what: string; of: (cases: readonly Case[]) => string | null };

function factRows(fact: EyeFact): Row[] {
  const values = (cases: readonly Case[]) => cases.flatMap(({ facts }) => facts[fact.id] ?? []);
  if (fact.kind === 'number')
    return [
      {
        what: `${fact.label}${fact.unit ? `, ${fact.unit}` : ''}: median`,
        of: (cases) => {
          const numbers = values(cases).filter((value) => typeof value === 'number');
          return numbers.length > 0
            ? `${Number(median(numbers).toFixed(2))} in ${counted(numbers.length, 'case')}`
            : null;
        },
      },
    ];
  if (fact.kind === 'yes-no')
    return [
      {
        what: fact.label,
        of: (cases) => {
          const known = values(cases);
          return known.length > 0 ? ofThose(known.filter((value) => value === true).length, known.length) : null;
        },
      },
    ];
  return (fact.levels ?? []).map(({ id, label }) => ({
    what: `${fact.label}: ${label}`,
    of: (cases) => {
      const known = values(cases);
      return known.length > 0 ? ofThose(known.filter((value) => value === id).length, known.length) : null;
    },
  }));
}

const allMine = ({ whole, steps }: Case['hands']) =>
  whole === 'mine' && Object.values(steps).every((whose) => whose === 'mine');
const ofThose = (count: number, of: number) => `${count} of ${of}`;
const share = (cases: readonly Case[], is: (one: Case) => boolean) => ofThose(cases.filter(is).length, cases.length);

/** "A 3, B 2": lists by what was noted of them. */
function tally(noted: readonly string[]): string | null {
  if (noted.length === 0) return null;
  const counts = new Map<string, number>();
  for (const each of noted) counts.set(each, (counts.get(each) ?? 0) + 1);
  return listed([...counts].map(([name, count]) => `${name} in ${counted(count, 'list')}`));
}
