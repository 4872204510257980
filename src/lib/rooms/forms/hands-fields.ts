import { same, type Case, type Hands, type Procedure } from '../../model';
import { textOf, textsOf, type FieldError, type Fields } from './fields';

type CaseHands = Case['hands'];

/** Whose hands, by one key: all mine, some steps not mine, taken over at a step. */
export type HandsForm = { answer: 'mine' | 'some' | 'taken-over'; notMine: readonly string[]; takenOverAt: string };

const handOf = (hands: CaseHands, stepId: string): Hands => hands.steps[stepId] ?? hands.whole;

/** Stored hands as the short form shows them. */
export function handsForm(hands: CaseHands, procedure: Procedure): HandsForm {
  const steps = procedure.steps.map(({ id }) => id);
  const takenOverAt = steps.find((id) => handOf(hands, id) === 'taken-over') ?? '';
  const notMine = steps.filter((id) => handOf(hands, id) !== 'mine' && id !== takenOverAt);
  const answer = takenOverAt !== '' ? 'taken-over' : notMine.length > 0 ? 'some' : 'mine';
  return { answer, notMine, takenOverAt };
}

/**
 * Hands as typed: `hands`, `notMine` (repeated) and `takenOverAt`, names prefixed. Must be answered.
 *
 * @param before what is stored; returned as it is where the form says the same, so that finer answers from elsewhere
 * ("shared") are not flattened by a form that cannot show them.
 */
export function handsFromForm(
  fields: Fields,
  prefix: string,
  procedure: Procedure,
  before: CaseHands | null = null,
): { hands: CaseHands | null; errors: FieldError[] } {
  const answer = textOf(fields, `${prefix}hands`);
  const known = new Set(procedure.steps.map(({ id }) => id));
  const notMine = textsOf(fields, `${prefix}notMine`).filter((id) => known.has(id));
  const takenOverAt = textOf(fields, `${prefix}takenOverAt`);
  const refuse = (field: string, message: string) => ({
    hands: null,
    errors: [{ field: `${prefix}${field}`, message }],
  });

  if (answer === 'mine')
    return { hands: asStored(before, procedure, { answer, notMine: [], takenOverAt: '' }), errors: [] };
  if (answer === 'some')
    return notMine.length === 0
      ? refuse('hands', 'Hands: tick the steps that were not yours.')
      : { hands: asStored(before, procedure, { answer, notMine, takenOverAt: '' }), errors: [] };
  if (answer === 'taken-over')
    return known.has(takenOverAt)
      ? {
          hands: asStored(before, procedure, {
            answer,
            notMine: notMine.filter((id) => id !== takenOverAt),
            takenOverAt,
          }),
          errors: [],
        }
      : refuse('hands', 'Hands: say at which step it was taken over.');
  return refuse('hands', 'Hands: say whose hands. All mine, some, or taken over.');
}

function asStored(before: CaseHands | null, procedure: Procedure, form: HandsForm): CaseHands {
  if (before && same(handsForm(before, procedure), form)) return before;
  const steps: Record<string, Hands> = {};
  for (const id of form.notMine) steps[id] = 'someone-else';
  if (form.takenOverAt !== '') steps[form.takenOverAt] = 'taken-over';
  return { whole: 'mine', steps };
}

const HANDS_SAY: Record<Hands, string> = {
  mine: 'mine',
  'someone-else': 'someone else',
  'taken-over': 'taken over here',
  shared: 'shared',
};

export const handWords = (hands: Hands): string => HANDS_SAY[hands];

/** Hands in words: `null` where all of it was done by own hands. */
export function handsWords(hands: CaseHands, procedure: Procedure): string | null {
  const others = procedure.steps.filter(({ id }) => handOf(hands, id) !== 'mine');
  if (others.length === 0) return null;
  if (others.length === procedure.steps.length && Object.keys(hands.steps).length === 0)
    return `whole case: ${handWords(hands.whole)}`;
  return others.map(({ id, label }) => `${label}: ${handWords(handOf(hands, id))}`).join('; ');
}
