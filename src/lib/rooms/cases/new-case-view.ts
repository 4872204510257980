import { z } from 'zod';
import type { ListRecord, Procedure, SurgeonRecord } from '../../model';
import { noticedOptions } from '../forms/event-fields';
import { eyeFields, type EyeFields } from '../forms/eye-fields';
import type { Fields } from '../forms/fields';
import { keptText } from '../forms/kept-text';
import { aheadWords, listFromForm } from '../forms/list-fields';
import { keptNames, timedSteps, timeNames } from './typed-times';
import { listTitle } from '../forms/when-words';

type Choice = { value: string; label: string };

/** First page of typing a case in. */
export type NewCaseView = {
  procedure: { id: string; name: string };
  procedures: readonly { id: string; name: string }[];
  lists: readonly Choice[];
  eye: EyeFields;
  steps: readonly Choice[];
  eventKinds: readonly Choice[];
  noticed: readonly Choice[];
};

/** Lists offered in the select: the latest ones; the list of an older case can be chosen on its own page. */
const LISTS_OFFERED = 25;

export function newCaseView(record: SurgeonRecord, procedure: Procedure): NewCaseView {
  return {
    procedure: { id: procedure.id, name: procedure.name },
    procedures: record.procedures.map(({ id, name }) => ({ id, name })),
    lists: listChoices(record, LISTS_OFFERED),
    eye: eyeFields(procedure),
    steps: procedure.steps.map(({ id, label }) => ({ value: id, label })),
    eventKinds: procedure.eventKinds.map(({ id, label }) => ({ value: id, label })),
    noticed: noticedOptions,
  };
}

/** Newest first by the cases on them; lists without a case yet come first, as the newest of all. */
export function listChoices({ cases, lists }: SurgeonRecord, most: number): Choice[] {
  const last = new Map<string, number>();
  for (const { listId, sequence } of cases)
    if (listId !== null) last.set(listId, Math.max(last.get(listId) ?? 0, sequence));
  const place = ({ id }: ListRecord) => last.get(id) ?? Infinity;
  return lists
    .map((list, index) => ({ list, index }))
    .sort((a, b) => {
      const [x, y] = [place(a.list), place(b.list)];
      return x === y ? b.index - a.index : y - x;
    })
    .slice(0, most)
    .map(({ list }) => ({ value: list.id, label: listTitle(list) }));
}

/** Second page: the steps with where each clock starts and stops, and the names of their fields. */
export type TimesView = {
  code: string;
  /** Asked about the list of the first page, before a time is typed; `null` where nothing is. */
  ahead: string | null;
  procedure: string;
  steps: readonly {
    label: string;
    starts: string;
    ends: string;
    mergeOf: string | null;
    names: ReturnType<typeof timeNames>;
    kept: readonly { label: string; seen: string; time: string }[];
  }[];
  reasons: readonly Choice[];
};

export function timesView(procedure: Procedure, code: string, ahead: string | null = null): TimesView {
  const label = (id: string) => procedure.steps.find((step) => step.id === id)?.label ?? id;
  return {
    code,
    ahead,
    procedure: procedure.name,
    steps: timedSteps(procedure).map((step) => ({
      label: step.label,
      starts: step.starts,
      ends: step.ends,
      mergeOf: step.mergeOf ? step.mergeOf.map(label).join(' and ') : null,
      names: timeNames(step.id),
      kept: step.protectedParts.map((part) => ({ label: part.label, ...keptNames(part.id) })),
    })),
    reasons: procedure.waitingReasons.map(({ id, label: words }) => ({ value: id, label: words })),
  };
}

/**
 * What is asked about the list on the first page of a case whose times come next.
 * @param today ISO date
 */
export function aheadOfTimes(draft: Fields, lists: readonly ListRecord[], today: string): string | null {
  const { list } = listFromForm(draft, lists);
  const when = list.kind === 'new' ? list.when : lists.find(({ id }) => list.kind === 'known' && id === list.id)?.when;
  return when ? aheadWords(when, today, 'its times are typed') : null;
}

/** Where the first page waits while the second is filled in; named by the code, so that two cases never mix. */
export const draftKey = (code: string): string => `new-case:${code}`;

const fieldsSchema = z.record(z.string(), z.array(z.string()));

/** A kept first page; `null` where the text is not one. */
export const draftFields = (text: string | null): Fields | null => keptText(fieldsSchema, text);
