import type { Procedure } from '../../model';
import { capital, counted } from '../../format';
import { parted, type Steps } from '../../turns';
import { cellOf, type Column } from '../headings/column';
import type { Table } from '../headings/table';
import { plainWords } from '../labels/plain-words';
import { briefly } from '../ledger';
import { note, type Ask, type Example, type Option } from '../questions';
import { differentCells } from '../table/agreed-cell';
import { blankOf } from '../table/blanks';
import { saysNone } from '../table/none-words';
import { textPointsToAPerson } from '../table/people';
import { yesNo } from '../table/yes-no';
import { intakeThresholds } from '../thresholds';
import { weights } from '../weights';
import type { Draft } from './draft';
import { eventKindOf, splitEvents, type EventMeaning, type EventWords } from './events';

/** Of files that ask for no events, and of our own, in which every word stands for itself. */
export const plainEventWords: EventWords = { of: () => null, empty: () => 'not-asked' };

type Use = { written: string; cases: number; examples: Example[] };

/**
 * Asks once what the cells leave open: an empty cell (none, or not asked?), a dash, words no kind of event is known by,
 * and a word that stands in so many cases that it can hardly be an event.
 */
export function* eventWords(
  drafts: readonly Draft[],
  table: Pick<Table, 'set' | 'ours' | 'layout'>,
  ask: Ask,
): Steps<EventWords> {
  const column = table.set.own('event');
  if (!column || table.ours) return plainEventWords;
  const speaks = speaking(table, column);
  const seen = { empty: newUse(''), dash: newUse('-'), words: new Map<string, Use>(), filled: 0, cases: 0 };
  const look = (draft: Draft): void => {
    const cells = differentCells(draft.rows, column).filter((cell) => cell !== '');
    const row = draft.rows[0]?.row ?? 0;
    seen.cases += 1;
    if (cells.length === 0) return speaks(draft) ? use(seen.empty, row, draft.code) : undefined;
    seen.filled += 1;
    if (cells.every((cell) => blankOf(cell) === 'dash')) return use(seen.dash, row, `${draft.code}: ${cells[0] ?? ''}`);
    for (const written of new Set(cells.flatMap(splitEvents))) {
      const key = plainWords(written);
      if (key === '' || saysNone(written) || yesNo(written) === false || yesNo(written) === null) continue;
      const word = seen.words.get(key) ?? newUse(written);
      seen.words.set(key, word);
      use(word, row, briefly(written));
    }
  };
  for (const part of parted(drafts)) {
    yield part.length * weights.case;
    for (const draft of part) {
      if (draft.role === 'me') look(draft);
    }
  }
  // The list sheet says what none is (0), so what is empty on it was not answered.
  const printed = table.layout === 'sheet' && table.set.own('position') !== undefined;
  const empty = seen.empty.cases > 0 && !printed ? askEmpty(seen.empty, column, ask) : 'not-asked';
  const dash = seen.dash.cases > 0 ? askDash(seen.dash, column, ask) : 'none';
  const meanings = new Map<string, EventMeaning>();
  const procedure = drafts[0]?.procedure;
  let asked = 0;
  for (const [key, word] of procedure ? seen.words : []) {
    yield weights.name;
    if (!procedure || asked >= MOST_ASKED) break;
    const meaning = askWord(word, seen, procedure, column, ask);
    if (meaning === undefined) continue;
    asked += 1;
    if (meaning !== null) meanings.set(key, meaning);
  }
  return {
    of: (written) => meanings.get(plainWords(written)) ?? (blankOf(written) === 'dash' ? dash : null),
    empty: (draft) => (speaks(draft) ? empty : 'not-asked'),
  };
}

const newUse = (written: string): Use => ({ written, cases: 0, examples: [] });

function use(of: Use, row: number, text: string): void {
  of.cases += 1;
  note(of.examples, row, text);
}

/** More words than this that no kind of event is known by are remarks, not kinds. */
const MOST_ASKED = 30;

/**
 * A row of a list sheet on which nothing at all is filled in has not been answered by anybody. Where the sheet asks for
 * nothing but events, an empty cell is all there can be.
 */
function speaking({ set, layout }: Pick<Table, 'set' | 'layout'>, event: Column): (draft: Draft) => boolean {
  if (layout !== 'sheet') return () => true;
  const others = set.columns.filter(
    ({ target, index }) =>
      index !== event.index &&
      (['fact', 'level', 'seen'].includes(target.what) ||
        (target.what === 'own' && ['more', 'hands', 'case-hands', 'energy'].includes(target.id))),
  );
  return ({ rows }) => others.length === 0 || rows.some((row) => others.some((column) => cellOf(row, column) !== ''));
}

const NONE_OR_NOT = (cases: number): Option[] => [
  { value: 'none', label: cases === 1 ? 'no event in this case' : 'no event in these cases' },
  { value: 'not-asked', label: 'not asked, or not known: events stay not answered' },
];

function askEmpty({ cases, examples }: Use, { heading }: Column, ask: Ask): 'none' | 'not-asked' {
  const answer = ask({
    id: 'event-empty',
    question: `${capital(counted(cases, 'case'))} ${cases === 1 ? 'has' : 'have'} an empty cell under "${heading}": no event, or not asked?`,
    options: NONE_OR_NOT(cases),
    guess: 'not-asked',
    examples,
  });
  return answer === 'none' ? 'none' : 'not-asked';
}

function askDash({ cases, examples }: Use, { heading }: Column, ask: Ask): 'none' | 'not-asked' {
  const answer = ask({
    id: 'event-dash',
    question: `${capital(counted(cases, 'case'))} ${cases === 1 ? 'has' : 'have'} a dash under "${heading}": no event, or not asked?`,
    options: NONE_OR_NOT(cases),
    guess: 'none',
    examples,
  });
  return answer === 'none' ? 'none' : 'not-asked';
}

/** `undefined`: it need not be asked; `null`: kept in its own words. */
function askWord(
  { written, cases, examples }: Use,
  seen: { filled: number; cases: number },
  procedure: Procedure,
  { heading }: Column,
  ask: Ask,
): EventMeaning | null | undefined {
  const known = yesNo(written) === true ? 'other' : eventKindOf(procedure)(written);
  const { eventCommonShare, eventCommonCases, kindCommonCases } = intakeThresholds;
  const common =
    known === null || known === 'other'
      ? cases >= eventCommonCases && cases > eventCommonShare * seen.filled
      : cases >= kindCommonCases && cases > eventCommonShare * seen.cases;
  if (known !== null && !common) return undefined;
  // Words that may name a person are not asked about: they are never kept.
  if (known === null && textPointsToAPerson(written) && !common) return undefined;
  const word = briefly(written);
  const stands = `"${word}" stands in ${counted(cases, 'case')} under "${heading}"`;
  const answer = ask({
    id: `event:${plainWords(written)}`,
    question: common
      ? `${stands}, which is most of ${known === null || known === 'other' ? `the ${seen.filled} that are filled in` : `all ${seen.cases}`}. What does it say?`
      : `${stands}. Which event is it?`,
    options: [
      { value: 'none', label: 'there was no event' },
      { value: 'not-asked', label: 'nothing about events: not answered' },
      { value: 'own', label: known === null ? 'an event, kept in these words' : 'an event, as it reads' },
      ...procedure.eventKinds.map(({ id, label }) => ({ value: `kind:${id}`, label })),
    ],
    guess: common ? 'not-asked' : 'own',
    mustAnswer: common,
    examples,
  });
  if (answer === 'none' || answer === 'not-asked') return answer;
  return answer === 'own' ? null : { kind: answer.slice('kind:'.length) };
}
