import type { Case, Event, ListRecord, Procedure, SurgeonRecord } from '../../model';
import { listsOf, untimedOfList } from '../../safety';
import { counted } from '../../format';
import { cellOf, type CellRowView } from './done-cells';
import type { GoalReading } from '../goals/goal-reading';
import { safetyOfGoal } from './safety-of-goal';

export type SafetyView = {
  head: string;
  sentences: readonly string[];
  rows: readonly CellRowView[];
  /** Takeovers: an outcome beside the result, at the same size. */
  takeovers: string | null;
};

/** Safety in the cases of a goal's window and in the operations of their lists that were not timed. */
export function safetyView(state: GoalReading, { cases, lists }: Pick<SurgeonRecord, 'cases' | 'lists'>): SafetyView {
  const { spanCases, procedure } = state;
  return {
    ...safetyOfGoal(state, { cases, lists }),
    rows: [timedRow(spanCases, procedure), ...untimedRows(spanCases, cases, lists, procedure)],
  };
}

function eventOf(procedure: Procedure, { kind, serious }: Event): string {
  const label = procedure.eventKinds.find(({ id }) => id === kind)?.label ?? kind;
  return `${label}${serious ? ', serious' : ''}`;
}

function timedRow(window: readonly Case[], procedure: Procedure): CellRowView {
  const answered = window.filter((each) => each.events !== null).length;
  return {
    id: 'timed',
    label: 'Timed cases',
    cells: window.map((each) => {
      const { events } = each;
      if (events === null) return cellOf(each, 'not-answered', 'events not answered');
      if (events.length === 0) return cellOf(each, 'open', 'no event');
      return cellOf(each, 'event', events.map((event) => eventOf(procedure, event)).join('; '));
    }),
    words: window.length === 0 ? '' : `events answered in ${answered} of ${window.length}`,
  };
}

/** Operated on the same lists, not timed: they count for safety. A row only where a list says how many were operated. */
function untimedRows(
  window: readonly Case[],
  all: readonly Case[],
  lists: readonly ListRecord[],
  procedure: Procedure,
): CellRowView[] {
  const known = listsOf(window, lists).flatMap((list) => {
    const untimed = untimedOfList(list, all);
    return untimed && untimed.operated > 0 ? [{ list, ...untimed }] : [];
  });
  if (known.length === 0) return [];
  const cells = known.flatMap(({ list, operated, answered }) =>
    Array.from({ length: operated }, (_, index): CellRowView['cells'][number] => {
      const event = list.untimedEvents[index];
      const [kind, is] = event
        ? (['event', eventOf(procedure, event)] as const)
        : index < answered
          ? (['open', 'no event'] as const)
          : (['not-answered', 'events not answered'] as const);
      return { kind, say: `not timed: ${is}`, of: 'not timed', is };
    }),
  );
  const answered = known.reduce((sum, each) => sum + each.answered, 0);
  return [
    {
      id: 'untimed',
      label: 'Operated on the same lists, not timed',
      cells,
      words: `${counted(cells.length, 'operation')}; events answered in ${answered}`,
    },
  ];
}
