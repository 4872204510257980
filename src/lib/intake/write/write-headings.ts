import type { Procedure } from '../../model';

/** Columns that every file of ours begins with, in this order; by them it is known again, and an id stands for itself. */
export const stretchHeadings = [
  'case_id',
  'procedure',
  'list',
  'date',
  'position',
  'step',
  'start_s',
  'end_s',
  'seconds',
  'kind',
  'reason',
  'hands',
  'case_hands',
  'returned_to',
] as const;

export const caseHeadings = ['case_id', 'procedure', 'list', 'date', 'position', 'case_hands'] as const;

export const eventHeadings = [
  'event',
  'event_step',
  'event_serious',
  'event_near_miss',
  'event_noticed',
  'event_reviewed_at',
  'event_review',
] as const;

export const energyHeadings = ['energy', 'energy_unit'] as const;

/** Heading of a protected part: seen, not seen, or empty where it was not looked for. */
export const seenHeading = (partId: string): string => `${partId} seen`;

export const protectedPartIds = (procedure: Procedure): string[] =>
  procedure.steps.flatMap((step) => step.protectedParts.map(({ id }) => id));

/** Files written before a step was said to be returned to. */
const earlierHeadings = stretchHeadings.map((heading) => (heading === 'returned_to' ? 'went_back' : heading));

const beginsWith = (headings: readonly string[], ours: readonly string[]): boolean =>
  ours.every((heading, index) => headings[index] === heading);

/** Did this tool write the file? */
export const isOurs = (headings: readonly string[]): boolean =>
  beginsWith(headings, stretchHeadings) ||
  beginsWith(headings, earlierHeadings) ||
  (beginsWith(headings, caseHeadings) && headings[6] === 'event');
