import { clock } from '../../format';
import { type Case, type ListRecord, type Procedure, procedureOf, type Stretch, type SurgeonRecord } from '../../model';
import { stepInitials } from '../cases/step-initials';
import { timedSteps } from '../cases/typed-times';
import { listTitle } from '../forms/when-words';
import { casesOfList, rowAnswers } from './list-view';

export const timeName = (caseId: string, stepId: string) => `${caseId}.time-${stepId}`;

/** One case of the grid. `closed`: why its times cannot be typed here. */
export type TimesRow = {
  id: string;
  code: string;
  version: number;
  closed: string | null;
  /** By step, as the fields show them. */
  times: Readonly<Record<string, string>>;
};

export type TimesGrid = {
  id: string;
  title: string;
  procedure: string;
  /** All that can be timed, in order, and which of them are asked here. */
  steps: readonly { id: string; label: string; initials: string; clock: string; asked: boolean }[];
  rows: readonly TimesRow[];
  /** Codes of cases of the list in which hands, or events, are not answered yet. */
  handsOpen: number;
  eventsOpen: number;
  others: number;
};

/** The cases of a list whose times are typed as one grid: those of one procedure, the first of the list. */
export function casesOfGrid(list: ListRecord, record: SurgeonRecord): { procedure: Procedure; cases: Case[] } {
  const all = casesOfList(list, record);
  const procedure = procedureOf(record, all[0]?.procedureId ?? record.profile.procedureId);
  return { procedure, cases: all.filter(({ procedureId }) => procedureId === procedure.id) };
}

/** @param chosen steps that were asked for; in the order of the operation whatever their order here */
export function timesGrid(
  list: ListRecord,
  record: SurgeonRecord,
  hidden: ReadonlySet<string>,
  chosen: readonly string[],
): TimesGrid {
  const { procedure, cases } = casesOfGrid(list, record);
  const initials = stepInitials(procedure);
  const open = cases.filter((one) => closedBecause(one, hidden) === null);
  return {
    id: list.id,
    title: listTitle(list),
    procedure: procedure.name,
    steps: timedSteps(procedure).map(({ id, label, starts, ends }) => ({
      id,
      label,
      initials: initials[id] ?? '',
      clock: `From: ${starts}. To: ${ends}.`,
      asked: chosen.includes(id),
    })),
    rows: cases.map((one) => {
      const closed = closedBecause(one, hidden);
      return { id: one.id, code: one.code, version: one.version, closed, times: closed ? {} : timesShown(one) };
    }),
    handsOpen: open.filter((one) => rowAnswers(one, procedure).hands.answer === '').length,
    eventsOpen: open.filter(({ events }) => events === null).length,
    others: casesOfList(list, record).length - cases.length,
  };
}

/** Why the times of a case are not typed here; `null` where they are. */
export function closedBecause(one: Case, hidden: ReadonlySet<string>): string | null {
  if (one.keptAsItIs !== null) return 'kept as it is';
  if (one.stretches.length === 0) return null;
  if (hidden.has(one.id)) return 'has times, hidden while its window runs';
  const once = new Set(one.stretches.map(({ stepId }) => stepId)).size === one.stretches.length;
  const lengths = one.stretches.every(({ kind, start }) => kind === 'step' && start === null);
  const typed = one.source.kind === 'typed' || one.source.kind === 'by-hand';
  return typed && once && lengths ? null : 'has times already, changed on its own page';
}

/** What the field of a step shows of what is stored. */
export const timeShown = ({ seconds }: Pick<Stretch, 'seconds'>): string =>
  Number.isInteger(seconds) ? clock(seconds) : String(seconds);

const timesShown = (one: Case) =>
  Object.fromEntries(one.stretches.map((stretch) => [stretch.stepId ?? '', timeShown(stretch)]));

/** Steps that the last cases noted by hand have times of: what the same surgeon will note next. */
export function stepsNotedLast({ cases }: Pick<SurgeonRecord, 'cases'>, procedureId: string): string[] {
  const last = cases.findLast(
    (one) => one.procedureId === procedureId && one.source.kind === 'by-hand' && one.stretches.length > 0,
  );
  return last ? last.stretches.flatMap(({ stepId }) => stepId ?? []) : [];
}
