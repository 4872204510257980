import type { Procedure } from '../../model';
import { columnWords, ownColumns, type OwnColumn } from './columns';

/** `sheet`: one row a case and no column of times, as a list sheet has it. */
export type Layout = 'stretches' | 'cases' | 'sheet';

/** What of a step one column of a sheet with one row a case can hold. */
export const stepColumns = {
  'step-time': { words: '', suffixes: [] },
  'step-start': { words: ', start', suffixes: ['start', 'starts', 'start time', 'from', 'begin', 'begins', 'started'] },
  'step-end': { words: ', end', suffixes: ['end', 'ends', 'end time', 'to', 'stop', 'finish', 'ended'] },
  'step-waiting': { words: ', waiting', suffixes: ['waiting', 'wait', 'waiting time', 'wait time', 'waited'] },
  'step-returned-to': {
    words: ', times returned to',
    suffixes: ['returned to', 'times returned to', 'went back', 'gone back', 'times back', 'went back times'],
  },
  'step-hands': { words: ', whose hands', suffixes: ['hands', 'whose hands'] },
} as const;

export type StepColumn = keyof typeof stepColumns;

/**
 * What a column holds: a column of its own, something of a step, a fact of the eye, one level of a fact as yes or no
 * (`pupil:small`), a protected part seen, or nothing that is read.
 */
export type Target =
  | { what: 'own'; id: OwnColumn }
  | { what: StepColumn; id: string }
  | { what: 'fact'; id: string }
  | { what: 'level'; id: string }
  | { what: 'seen'; id: string }
  | { what: 'leave'; because: 'unknown' | 'person' | 'not-kept' | 'chosen' | 'twice' | 'no-times' | 'unclear' };

export const leave = (because: Extract<Target, { what: 'leave' }>['because']): Target => ({ what: 'leave', because });

/** One plain word for a form field. */
export const targetValue = (target: Target): string =>
  target.what === 'leave' ? 'leave' : `${target.what}:${target.id}`;

export function targetOf(value: string, procedure: Procedure): Target | null {
  if (value === 'leave') return leave('chosen');
  const at = value.indexOf(':');
  const [what, id] = [value.slice(0, at), value.slice(at + 1)];
  if (what === 'own') return Object.hasOwn(ownColumns, id) ? { what, id: id as OwnColumn } : null;
  if (what === 'fact') return procedure.facts.some((fact) => fact.id === id) ? { what, id } : null;
  if (what === 'level') return levelsOf(procedure).some((level) => level.id === id) ? { what, id } : null;
  if (what === 'seen')
    return procedure.steps.some((step) => step.protectedParts.some((part) => part.id === id)) ? { what, id } : null;
  if (Object.hasOwn(stepColumns, what))
    return procedure.steps.some((step) => step.id === id) ? { what: what as StepColumn, id } : null;
  return null;
}

/** In words, for the page that shows what was understood. */
export function targetWords(target: Target, procedure: Procedure): string {
  switch (target.what) {
    case 'own':
      return columnWords[target.id];
    case 'fact':
      return `about this eye: ${procedure.facts.find((fact) => fact.id === target.id)?.label ?? target.id}`;
    case 'level':
      return `about this eye: ${levelsOf(procedure).find((level) => level.id === target.id)?.label ?? target.id}, yes or no`;
    case 'seen':
      return `seen or not: ${procedure.steps.flatMap((step) => step.protectedParts).find((part) => part.id === target.id)?.label ?? target.id}`;
    case 'leave':
      return leaveWords[target.because];
    default:
      return `${stepLabel(procedure, target.id)}${stepColumns[target.what].words}`;
  }
}

/** Levels of which a column can say yes or no: each of a choice, and the opposite of a yes-no fact. */
function levelsOf({ facts }: Procedure): { id: string; label: string }[] {
  return facts.flatMap(({ id, label, kind, levels = [] }) => {
    if (kind === 'choice')
      return levels.map((level) => ({ id: `${id}:${level.id}`, label: `${label} ${level.label}` }));
    if (kind === 'number') return [];
    return [
      { id: `${id}:no`, label: levels.find((level) => level.id === 'no')?.label ?? `not ${label.toLowerCase()}` },
    ];
  });
}

const leaveWords = {
  unknown: 'not used',
  person: 'not read: points to a person',
  'not-kept': 'not read: says too much about who it was',
  chosen: 'left out, as you chose',
  twice: 'not used: another column holds the same',
  'no-times': 'not used: what it holds is not a time',
  unclear: 'not used: could mean more than one thing',
} as const;

export const stepLabel = (procedure: Procedure, id: string): string =>
  procedure.steps.find((step) => step.id === id)?.label ?? id;

/** Everything a column could be, to choose from. */
export function allTargets(procedure: Procedure, layout: Layout): { value: string; label: string }[] {
  const steps = layout === 'stretches' ? [] : procedure.steps.filter((step) => !step.retired);
  const targets: Target[] = [
    leave('chosen'),
    ...(Object.keys(ownColumns) as OwnColumn[])
      .filter((id) => usedIn(layout, id))
      .map((id) => ({ what: 'own', id }) as const),
    ...steps.flatMap(({ id }) => (Object.keys(stepColumns) as StepColumn[]).map((what) => ({ what, id }))),
    ...procedure.facts.map(({ id }) => ({ what: 'fact', id }) as const),
    ...levelsOf(procedure).map(({ id }) => ({ what: 'level', id }) as const),
    ...procedure.steps.flatMap((step) => step.protectedParts.map(({ id }) => ({ what: 'seen', id }) as const)),
  ];
  return targets.map((target) => ({
    value: targetValue(target),
    label: target.what === 'leave' ? 'leave out' : targetWords(target, procedure),
  }));
}

const STRETCH_ONLY: readonly OwnColumn[] = ['step', 'start', 'end', 'seconds', 'kind', 'reason', 'returned-to'];

/** A sheet with one row a case has its times under the steps; a "time" beside them is the whole operation. */
export const usedIn = (layout: Layout, id: OwnColumn): boolean => layout === 'stretches' || !STRETCH_ONLY.includes(id);
