import type { Goal, SurgeonRecord } from '../../model';
import { counted } from '../../format';
import { operatedOn } from '../../safety';
import { overLists } from '../../words/reported-result';
import { lastingToRead, lastingWaits, openGoals, type StagedGoal } from '../goals/goal-standing';

import { waitingForReview } from '../goals/waiting-for-review';
import { dayWords, whenWords } from '../forms/when-words';

export type MonthPoint = {
  title: string;
  words: string;
  /** The same on the strip, where there is no room for words. */
  short: string;
  /** Behind us, or still to come. */
  past: boolean;
  /** A stroke a counted case of a list; true: its review was written. */
  strokes: readonly boolean[] | null;
};

/** Where the most pressing goal is in its month, by lists: no time and no share of anything. */
export type MonthLine = { href: string; step: string; now: string; points: readonly MonthPoint[] };

/** More lists than this are too narrow to name: the first ones stand together. */
const LISTS = 6;

/** `null`: no goal is open. */
export function monthLine(record: SurgeonRecord): MonthLine | null {
  const [first] = openGoals(record);
  if (!first) return null;
  const { goal, step } = first;
  return {
    href: goal.state === 'draft' ? `/plan/${goal.id}` : `/after-twenty/${goal.id}`,
    step: step.label,
    now: nowWords(first),
    points: [
      { title: 'Chosen', words: CHOSEN[goal.chosenBy], short: '', past: true, strokes: null },
      plannedPoint(goal),
      ...(first.stage === 'draft' ? [] : cases(first, record)),
      ...afterwards(first),
    ],
  };
}

const CHOSEN: Record<Goal['chosenBy'], string> = {
  seconds: 'on the view of most seconds',
  spread: 'on the view of what varies most',
  reference: 'against the reference set',
  eyes: 'for taking longer in certain eyes',
  safety: 'for safety first',
  own: 'for a reason of your own',
};

function plannedPoint({ setAt, state, baseline }: Goal): MonthPoint {
  const day = setAt.slice(0, 10);
  const of = baseline.caseIds.length > 0 ? `, ${counted(baseline.caseIds.length, 'baseline case')}` : '';
  return state === 'draft'
    ? { title: 'Planned', words: 'waits for your supervisor', short: 'a draft', past: false, strokes: null }
    : {
        title: 'Planned',
        words: `${withoutYear(dayWords(day))}${of}`,
        short: shortDay(day),
        past: true,
        strokes: null,
      };
}

/** The lists that fill the window; once it was read, that window in one point and the lists of the twenty cases after it. */
function cases({ goal, window, stored }: StagedGoal, record: SurgeonRecord): MonthPoint[] {
  const [whole] = window.windows;
  const read = stored.length > 0 && whole;
  const before: MonthPoint[] = read
    ? [
        {
          title: `The next ${whole.length === 40 ? 'forty' : whole.length === 20 ? 'twenty' : counted(whole.length, 'case')}`,
          words: `${counted(whole.length, 'case')} over ${counted(window.lists, 'list')}, read`,
          short: 'read',
          past: true,
          strokes: null,
        },
      ]
    : [];
  return [...before, ...byList(read ? window.running : (whole ?? window.running), record, goal)];
}

function byList(ids: readonly string[], record: SurgeonRecord, goal: Goal): MonthPoint[] {
  const waiting = new Set(waitingForReview(record, goal));
  const wanted = new Set(ids);
  const lists = new Map<string | null, boolean[]>();
  for (const { id, listId } of record.cases)
    if (wanted.has(id)) lists.set(listId, [...(lists.get(listId) ?? []), !waiting.has(id)]);
  const points = [...lists].map(([listId, strokes]) => listPoint(listId, strokes, record, goal));
  const early = points.length > LISTS ? points.slice(0, points.length - LISTS + 1) : [];
  return [...(early.length > 0 ? [together(early, goal)] : []), ...points.slice(early.length)];
}

function listPoint(listId: string | null, strokes: boolean[], record: SurgeonRecord, goal: Goal): MonthPoint {
  const list = record.lists.find(({ id }) => id === listId);
  const date = list?.when.kind === 'date' ? list.when.date : null;
  const title = !list
    ? 'List not known'
    : date
      ? withoutYear(dayWords(date))
      : whenWords(list.when) || list.label || 'A list';
  const operated = list ? operatedOn(list, record.cases) : null;
  const of = operated === null ? `${strokes.length} counted` : `${operated} operated, ${strokes.length} counted`;
  return {
    title: title.charAt(0).toUpperCase() + title.slice(1),
    words: `${of}${reviewWords(strokes, goal)}`,
    short: date ? shortDay(date) : title,
    past: true,
    strokes: inOrderOfReview(strokes),
  };
}

const together = (points: readonly MonthPoint[], goal: Goal): MonthPoint => {
  const strokes = points.flatMap((point) => point.strokes ?? []);
  return {
    title: counted(points.length, 'list'),
    words: `${strokes.length} counted${reviewWords(strokes, goal)}`,
    short: counted(points.length, 'list'),
    past: true,
    strokes: inOrderOfReview(strokes),
  };
};

const inOrderOfReview = (strokes: readonly boolean[]) => [...strokes].sort((a, b) => Number(b) - Number(a));

/** Of the checkpoints alone: events and facts of the eye may still be open, and What waits names them. */
function reviewWords(strokes: readonly boolean[], { checkpoints }: Goal): string {
  if (checkpoints.length === 0) return '';
  const waiting = strokes.filter((reviewed) => !reviewed).length;
  return waiting === 0 ? ', checkpoints answered' : `, ${waiting} ${waiting === 1 ? 'waits' : 'wait'} for review`;
}

function afterwards(goal: StagedGoal): MonthPoint[] {
  const { stage, stored, window } = goal;
  const { need, running, lists } = window;
  const open = (title: string, words: string, short: string): MonthPoint => ({
    title,
    words,
    short,
    past: false,
    strokes: null,
  });
  switch (stage) {
    case 'full':
      return [open('Result', 'can be read now', 'can be read')];
    case 'deciding':
      return [open('Decision', 'the result was read', 'to come')];
    case 'following':
      // Only what was found shorter can have lasted.
      if (stored.at(-1)?.outcome.kind !== 'shorter') return [];
      if (lastingToRead(goal) > 0) return [open('Did it last?', 'can be read now', 'can be read')];
      return lastingWaits(goal)
        ? [open('Did it last?', 'complete, and waits', 'waits')]
        : [open('Did it last?', `after ${counted(Math.max(0, 20 - running.length), 'more case')}`, 'to come')];
    case 'paused':
      return [open(stored.length > 0 ? 'Decision' : 'Result', 'the goal is paused', 'paused')];
    default: {
      const more = Math.max(0, need.cases - running.length);
      const moreLists = Math.max(0, need.lists - lists);
      const missing = [
        ...(more > 0 ? [counted(more, 'case')] : []),
        ...(moreLists > 0 ? [counted(moreLists, 'list')] : []),
      ].join(' and ');
      return [
        ...(moreLists > 0 && stage === 'window' ? [open('Next list', `the ${ordinal(lists + 1)}`, '')] : []),
        open(
          'Result',
          `at ${NUMBER[need.cases] ?? need.cases}: ${missing} to come`,
          `at ${NUMBER[need.cases] ?? need.cases}`,
        ),
      ];
    }
  }
}

/** Said under 768 px in place of the line. */
function nowWords(goal: StagedGoal): string {
  const { stage, window } = goal;
  const { need, running, lists, listsKnown } = window;
  switch (stage) {
    case 'draft':
      return 'A plan waits for your supervisor';
    case 'paused':
      return 'The goal is paused';
    case 'full':
      return `${need.cases} of ${need.cases}: the result can be read`;
    case 'deciding':
      return 'The result waits for your decision';
    case 'following':
      return lastingToRead(goal) > 0 || lastingWaits(goal)
        ? 'A following twenty is complete'
        : `${running.length} of the following twenty`;
    case 'window':
      return `${Math.min(running.length, need.cases)} of ${need.cases}${listsKnown && running.length > 0 ? overLists(lists, need.lists) : ''}`;
  }
}

const NUMBER: Record<number, string> = { 20: 'twenty', 40: 'forty' };
const ordinal = (n: number): string => ['first', 'second', 'third', 'fourth'][n - 1] ?? `${n}th`;
const withoutYear = (words: string): string => words.replace(/ \d{4}$/, '');
const shortDay = (isoDay: string): string => withoutYear(dayWords(isoDay)).replace(/^(\d+ \w{3})\w*$/, '$1');
