import type { Procedure, Step } from '../../../model';
import { textOf, type FieldError, type Fields } from '../../forms/fields';
import { namesFrom } from './lines';
import { slugFrom } from './slug-from';

/** Lines offered at first; more come with a button. */
const ROWS = 6;
const MORE_ROWS = 3;

export const stepRowsOffered = (sent: Fields): number =>
  Math.max(ROWS, (sent.label?.length ?? 0) + ('more' in sent ? MORE_ROWS : 0));

/**
 * A procedure of the surgeon's own: a name, and its steps in order, one row each (`label`, `starts`, `ends` repeated).
 * Rows left wholly empty are passed over. Waiting reasons and kinds of event are taken from `like`, since most fit any
 * operation; facts of the eye only where asked, since a hard nucleus means nothing for a graft.
 *
 * @param known every procedure there is, shipped and own
 */
export function newProcedureFromForm(
  fields: Fields,
  known: readonly Procedure[],
): { procedure: Procedure; errors: FieldError[] } {
  const name = textOf(fields, 'name');
  const like = known.find(({ id }) => id === textOf(fields, 'like'));
  const errors: FieldError[] = [];
  if (name === '') errors.push({ field: 'name', message: 'Name: say what the operation is called.' });
  else if (known.some((other) => other.name.toLowerCase() === name.toLowerCase()))
    errors.push({ field: 'name', message: `Name: there is already a procedure called "${name}".` });

  const steps: Step[] = [];
  const cell = (column: string, row: number) => fields[column]?.[row]?.trim() ?? '';
  for (let row = 0; row < (fields.label?.length ?? 0); row += 1) {
    const [label, starts, ends] = [cell('label', row), cell('starts', row), cell('ends', row)];
    if (label === '' && starts === '' && ends === '') continue;
    const which = label === '' ? `Step ${row + 1}` : label;
    const missing = (field: string, message: string) => errors.push({ field: `${field}-${row}`, message });
    if (label === '') missing('label', `${which}: give it a name, or clear the whole row.`);
    else if (steps.some((step) => step.label.toLowerCase() === label.toLowerCase()))
      missing('label', `${which}: another step has this name. Rename one, so that they can be told apart.`);
    if (starts === '') missing('starts', `${which}, starts: say what is seen when its clock starts.`);
    if (ends === '') missing('ends', `${which}, ends: say what is seen when its clock stops.`);
    steps.push({
      id: slugFrom(
        label,
        steps.map(({ id }) => id),
        'step',
      ),
      label,
      starts,
      ends,
      synonyms: [],
      earlier: [],
      optional: false,
      notToShorten: false,
      protectedParts: [],
      retired: false,
    });
  }
  if (steps.length < 2)
    errors.push({ field: `label-${steps.length}`, message: 'Steps: a procedure needs at least two, one a row.' });
  return {
    errors,
    procedure: {
      id: slugFrom(
        name,
        known.map(({ id }) => id),
        'procedure',
      ),
      name,
      synonyms: namesFrom(textOf(fields, 'synonyms')),
      steps,
      facts: like && textOf(fields, 'facts') === 'yes' ? like.facts : [],
      waitingReasons: like?.waitingReasons ?? [],
      eventKinds: like?.eventKinds ?? [],
      origin: 'own',
    },
  };
}
