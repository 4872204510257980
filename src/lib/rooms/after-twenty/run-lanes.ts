import { EVENTS_NOT_ASKED } from '../../words/after-twenty';
/** A case of a run, and what is known beside it. */
export type RunCaseView = {
  id: string;
  code: string;
  period: number;
  ratio: number | null;
  leftOut: boolean;
  list: string | null;
  note: boolean;
  events: 'event' | 'not-answered' | 'none';
  said: string;
  mark?: string;
};

export type Lane = 'lists' | 'notes' | 'events';

export const neverAsked = (cases: readonly Pick<RunCaseView, 'events'>[]) =>
  cases.every(({ events }) => events === 'not-answered');

/** A row of question marks says less than a sentence. */
export const notAsked = (cases: readonly Pick<RunCaseView, 'events'>[]): string[] =>
  neverAsked(cases) ? [EVENTS_NOT_ASKED] : [];

/** Lists known in no case, and events asked in none, have no lane: an empty one would read as "none". */
export function lanesOf(cases: readonly Pick<RunCaseView, 'events' | 'list'>[], wanted: readonly Lane[]): Lane[] {
  return wanted.filter(
    (lane) =>
      (lane !== 'lists' || cases.some(({ list }) => list !== null)) && (lane !== 'events' || !neverAsked(cases)),
  );
}
