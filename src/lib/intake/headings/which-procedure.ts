import type { Procedure } from '../../model';
import type { Steps } from '../../turns';
import type { Context } from '../context';
import { labelMatcher, procedureMatcher } from '../labels/labels';
import type { Row } from '../table/cells';
import { intakeThresholds } from '../thresholds';
import { weights } from '../weights';
import type { OwnColumn } from './columns';
import type { Found } from './find-headings';
import type { Heading } from './read-headings';

/** The procedure whose names fit best, unless a column says it; asked, so that it can be corrected. */
export function* mainProcedure(found: Found, { procedures, choices, ask }: Context): Steps<Procedure> {
  const rows = found.body.slice(0, intakeThresholds.procedureSample);
  let best = { procedure: procedures[0] as Procedure, fit: -1 };
  for (const procedure of procedures) {
    const fit = yield* fitOf(procedure, found, rows);
    if (fit > best.fit) best = { procedure, fit };
  }
  if (procedures.length === 1) return best.procedure;
  const column = columnOf('procedure', found, best.procedure);
  if (column >= 0 && choices['procedure'] === undefined) {
    const named = procedureMatcher(procedures);
    const counts = new Map(procedures.map((procedure) => [procedure.id, { procedure, count: 0 }]));
    for (const { cells } of rows) {
      yield weights.row;
      const of = counts.get(named(cells[column] ?? '').values[0] ?? '');
      if (of) of.count += 1;
    }
    const most = [...counts.values()].reduce((one, other) => (other.count > one.count ? other : one));
    if (most.count > 0) return most.procedure;
  }
  const answer = ask({
    id: 'procedure',
    question: 'Which procedure is it?',
    options: procedures.map(({ id, name }) => ({ value: id, label: name })),
    guess: best.procedure.id,
  });
  return procedures.find(({ id }) => id === answer) ?? best.procedure;
}

const headingsFor = ({ read }: Found, procedure: Procedure): readonly Heading[] => read.get(procedure) ?? [];

const columnOf = (id: OwnColumn, found: Found, procedure: Procedure): number =>
  headingsFor(found, procedure).findIndex(({ match }) =>
    match?.targets.some((target) => target.what === 'own' && target.id === id),
  );

const FIT = { exact: 2, loose: 1, unclear: 0, none: 0 } as const;

/** How well the names of a procedure fit: those in the step column, or those of the columns themselves. */
function* fitOf(procedure: Procedure, found: Found, rows: readonly Row[]): Steps<number> {
  let fit = 0;
  if (found.layout !== 'stretches') {
    const kinds = found.layout === 'sheet' ? ['fact', 'level'] : ['step-'];
    for (const { match } of headingsFor(found, procedure))
      if (kinds.some((kind) => match?.targets[0]?.what.startsWith(kind))) fit += FIT[match?.how ?? 'none'];
    return fit;
  }
  const column = columnOf('step', found, procedure);
  const labels = labelMatcher(procedure, false);
  for (const label of new Set(rows.map(({ cells }) => cells[column] ?? ''))) {
    yield weights.name;
    fit += FIT[labels(label).how];
  }
  return fit;
}
