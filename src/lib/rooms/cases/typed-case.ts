import { codePointsToAPatient } from '../../intake/table/people';
import type { Case, ListRecord, Procedure, When } from '../../model';
import { PLACE_PROBLEMS } from '../../words/place-of-case';
import { eventsFromForm } from '../forms/event-fields';
import { factsFromForm } from '../forms/eye-fields';
import { textOf, wholeOf, type FieldError, type Fields } from '../forms/fields';
import { handsFromForm } from '../forms/hands-fields';
import { listFromForm } from '../forms/list-fields';

/** What the first page of typing a case in gives: all that can be said before a time is seen. */
export type TypedFacts = {
  code: string;
  list: { kind: 'none' } | { kind: 'known'; id: string } | { kind: 'new'; label: string | null; when: When };
  position: number | null;
  facts: Case['facts'];
  hands: Case['hands'];
  events: NonNullable<Case['events']>;
};

export const CODE_MAX = 40;

/** Why a code cannot be taken; `null` where it can. */
export function codeProblem(code: string, taken: ReadonlySet<string>): string | null {
  if (code === '') return "Code: give the case a code of your own, never a patient's.";
  if (code.length > CODE_MAX) return `Code: at most ${CODE_MAX} characters.`;
  if (taken.has(code)) return `Code: ${code} is already in the record. Give this case another code.`;
  return codePointsToAPatient(code)
    ? `Code: "${code}" looks as if it could identify a patient. Give the case a code of your own.`
    : null;
}

/** The first page: facts, hands and events. Errors name the fields; nothing is stored here. */
export function typedFacts(
  fields: Fields,
  procedure: Procedure,
  cases: readonly Case[],
  lists: readonly ListRecord[],
): { typed: TypedFacts; errors: FieldError[] } {
  const code = textOf(fields, 'code');
  const problem = codeProblem(code, new Set(cases.map((one) => one.code)));
  const position = wholeOf(fields, 'position', 1);
  const list = listFromForm(fields, lists);
  const facts = factsFromForm(fields, 'fact-', procedure);
  const hands = handsFromForm(fields, '', procedure);
  const events = eventsFromForm(fields, '', procedure);
  const errors: FieldError[] = [
    ...(problem ? [{ field: 'code', message: problem }] : []),
    ...list.errors,
    ...(position === undefined ? [{ field: 'position', message: PLACE_PROBLEMS.position }] : []),
    ...facts.errors,
    ...hands.errors,
    ...events.errors,
  ];
  return {
    typed: {
      code,
      list: list.list,
      position: position ?? null,
      facts: facts.facts,
      hands: hands.hands ?? { whole: 'mine', steps: {} },
      events: events.events ?? [],
    },
    errors,
  };
}
