import { instant, type Event, type Procedure } from '../../model';
import { nameIndex, nameMatcher } from '../labels/name-matcher';
import { oncePer } from '../labels/once-per';
import { textPointsToAPerson } from '../table/people';
import { named, plainWords } from '../labels/plain-words';
import { saysNone } from '../table/none-words';
import { yesNo } from '../table/yes-no';
import type { Draft } from './draft';

/** What people write for events, here and there in other languages (from memory); the ids are those of the shipped procedures, others are ignored. */
const WRITTEN: Readonly<Record<string, readonly string[]>> = {
  'posterior-capsule-tear':
    named(`pcr, pc rupture, pc tear, pc rent, pct, posterior capsule rupture, posterior capsular rupture,
    posterior capsular tear, capsule rupture, kapselruptur, hinterkapselruptur, hkr, rupture capsulaire, rupture de la
    capsule posterieure, rotura capsular, rotura de capsula posterior, rottura capsulare, rottura della capsula
    posteriore, ruptura capsular, ruptura de capsula posterior`),
  'vitreous-loss': named(`vl, vit loss, vitreous, vitrectomy, anterior vitrectomy, glaskorperverlust,
    glaskorpervorfall, issue de vitre, perte de vitre, perdida de vitreo, salida de vitreo, perdita di vitreo, perda
    vitrea, perda de vitreo`),
  'anterior-capsule-tear':
    named(`act, ac tear, anterior capsular tear, rhexis tear, rhexis run out, run out, radial tear, argentinian
    flag`),
  'zonular-dialysis': ['zd', 'zonulysis', 'zonular dehiscence', 'zonule dialysis'],
  'dropped-nucleus': ['dropped fragment', 'nucleus drop', 'drop', 'lost nucleus', 'retained fragment'],
  'iris-prolapse': ['prolapsed iris'],
  'iris-damage': ['iris trauma', 'iris injury', 'iridodialysis', 'iris tear'],
  'descemet-detachment': ['descemet', 'dmd', 'descemet tear', 'descemet strip', 'descemet membrane detachment'],
  'wound-burn': ['burn', 'corneal burn', 'wound-site burn'],
  'wound-leak': ['leak', 'leaking wound', 'seidel positive'],
  'suture-placed': ['suture', 'sutured', 'wound suture'],
  'corneal-oedema': ['oedema', 'edema', 'corneal edema'],
  'pressure-rise': ['iop rise', 'raised iop', 'high pressure', 'iop spike'],
  'choroidal-haemorrhage': ['suprachoroidal haemorrhage', 'suprachoroidal hemorrhage', 'sch', 'expulsive haemorrhage'],
};

/** The cells of one row that speak of events, as written. */
export type EventCells = {
  kind: string;
  step: string;
  serious: string;
  nearMiss: string;
  noticed: string;
  reviewedAt: string;
  review: string;
};

/** What a word under the column of events was said to be: no event, not answered, or an event of this kind. */
export type EventMeaning = 'none' | 'not-asked' | { kind: string };

/** What the cells of the event column mean beyond what they say. `null`: as it reads. */
export type EventWords = {
  of: (written: string) => EventMeaning | null;
  /** Of a case in which every cell of the column is empty. */
  empty: (draft: Draft) => 'none' | 'not-asked';
};

export type EventsRead = { events: Event[] | null; wrong: { part: keyof EventCells; value: string; why: string }[] };

/** "; " separates several events in one cell; a doubled ";;" is a plain semicolon. */
export function splitEvents(cell: string): string[] {
  const parts = [''];
  for (let at = 0; at < cell.length; at += 1) {
    const sign = cell[at] ?? '';
    if (sign === ';' && cell[at + 1] !== ';') parts.push('');
    else {
      parts.push(`${parts.pop() ?? ''}${sign}`);
      if (sign === ';') at += 1;
    }
  }
  return parts.map((part) => part.trim());
}

export const joinEvents = (parts: readonly string[]): string =>
  parts.map((part) => part.replaceAll(';', ';;')).join('; ');

const kindIndex = oncePer((procedure: Procedure) =>
  nameIndex(procedure.eventKinds.map(({ id, label }) => ({ value: id, names: [id, label, ...(WRITTEN[id] ?? [])] }))),
);

/** The kind of event a word names; `null` where it names none, or more than one. */
export function eventKindOf(procedure: Procedure): (written: string) => string | null {
  const kindOf = nameMatcher(kindIndex(procedure));
  return (written) => {
    const { how, values } = kindOf(written);
    return how === 'exact' || how === 'loose' ? (values[0] ?? null) : null;
  };
}

/**
 * Reads events. `null`: not answered, which an empty cell is; only a word like "none" is an answer of none.
 *
 * @param words what was answered about the words of this file.
 * @param seriousGuess what holds where nothing is said about it.
 * @param ours a file this tool wrote: kinds stand as they are.
 */
export function eventReader(
  procedure: Procedure,
  {
    stepOf,
    words: said,
    seriousGuess,
    ours,
  }: { stepOf: (label: string) => string | null; words: EventWords; seriousGuess: boolean; ours: boolean },
): (cells: EventCells) => EventsRead {
  const kindOf = eventKindOf(procedure);
  return (cells) => {
    const wrong: EventsRead['wrong'] = [];
    const meant = said.of(cells.kind);
    const answer = ours ? oursAnswer(cells.kind) : yesNo(cells.kind);
    if (meant === 'none' || (!ours && saysNone(cells.kind)) || answer === false) return { events: [], wrong };
    if (meant === 'not-asked' || answer === null || plainWords(cells.kind) === '') return { events: null, wrong };
    const columns = {
      step: splitEvents(cells.step),
      serious: splitEvents(cells.serious),
      near: splitEvents(cells.nearMiss),
      noticed: splitEvents(cells.noticed),
      at: splitEvents(cells.reviewedAt),
      review: splitEvents(cells.review),
    };
    const parts = splitEvents(cells.kind);
    const events = parts.flatMap((written, index): Event[] => {
      const told = said.of(written);
      // Beside an event "nothing" says nothing more.
      if (parts.length > 1 && written !== '' && (told === 'none' || told === 'not-asked')) return [];
      const near = yesNo(columns.near[index] ?? '') ?? /near miss/i.test(written);
      const stepText = columns.step[index] ?? '';
      const stepId = stepText === '' ? null : stepOf(stepText);
      if (stepText !== '' && stepId === null)
        wrong.push({
          part: 'step',
          value: stepText,
          why: `No step is known as "${stepText}"; the event is kept without a step. Choose the step on the case page.`,
        });
      const kind = (): string => {
        // One of several without a name is still an event.
        if (written === '' || (!ours && answer === true)) return 'other';
        if (typeof told === 'object' && told !== null) return told.kind;
        return ours ? written : kindWritten(written, kindOf(written), wrong);
      };
      return [
        {
          kind: kind(),
          stepId,
          serious: yesNo(columns.serious[index] ?? '') ?? (near ? false : seriousGuess),
          nearMiss: near,
          noticed: noticedOf(columns.noticed[index] ?? '', wrong),
          reviewed: reviewOf(columns.at[index] ?? '', columns.review[index] ?? ''),
        },
      ];
    });
    return { events: events.length > 0 ? events : null, wrong };
  };
}

/** Our own files say "none", or what it was; nothing else is an answer. */
const oursAnswer = (kind: string): boolean | null | undefined =>
  kind === '' ? null : kind === 'none' ? false : undefined;

function kindWritten(written: string, known: string | null, wrong: EventsRead['wrong']): string {
  if (known !== null) return known;
  if (!textPointsToAPerson(written)) return written.slice(0, 120);
  wrong.push({
    part: 'kind',
    value: '',
    why: 'The words for this event may name a person, so it is kept as "something else". Say what it was on the case page.',
  });
  return 'other';
}

function noticedOf(text: string, wrong: EventsRead['wrong']): Event['noticed'] {
  const words = plainWords(text);
  if (/^(not known|unknown|not said)?$/.test(words)) return 'not-known';
  if (/^(during|intraop|intraoperative(ly)?|at operation)$/.test(words)) return 'during';
  if (/^(same day|day 0|after|recovery)$/.test(words)) return 'same-day';
  if (/^(later|next day|day \d+|post ?op(erative(ly)?)?|week \d+)$/.test(words)) return 'later';
  wrong.push({
    part: 'noticed',
    value: text,
    why: `"${text}" is not one of: during, same day, later. It is taken as not known; correct it on the case page.`,
  });
  return 'not-known';
}

/**
 * No time the program itself records has this form: it stands for the month of a review whose day the file did not
 * give.
 */
const MONTH_ALONE = '-01T00:00:00Z';
export const isMonthAlone = (at: string): boolean => at.endsWith(MONTH_ALONE);

/**
 * Files that give months in place of days give the month of a review too, and leave its text out unless it was asked for:
 * when it was reviewed is enough to know that it was.
 */
function reviewOf(at: string, written: string): Event['reviewed'] {
  const text = written === '' ? null : written;
  if (/^\d{4}-(0[1-9]|1[0-2])$/.test(at)) return { at: `${at}${MONTH_ALONE}`, text };
  return instant.safeParse(at).success ? { at, text } : null;
}
