import { z } from 'zod';
import { END, firstMoments, MOST_MOMENTS, START, type Moment } from '../recording';
import { keptText } from '../rooms/forms/kept-text';
import type { Store } from './storage/port';

/**
 * Moments of a step: their names, and where they stand in each recording. Among the drafts, because nothing rests on them;
 * those of a case under its own id, so that erasing the case takes them along.
 */
const namesKey = (procedureId: string, stepId: string) => `moments:${procedureId}:${stepId}`;
const timesKey = (caseId: string) => `moments/${caseId}`;

const namesSchema = z.array(z.object({ id: z.string(), label: z.string() })).max(MOST_MOMENTS);
const timesSchema = z.record(z.string(), z.record(z.string(), z.number().nonnegative()));

export const momentsOf = async (store: Store, procedureId: string, stepId: string): Promise<readonly Moment[]> =>
  keptText(namesSchema, await store.draft(namesKey(procedureId, stepId))) ?? firstMoments;

/** @returns moment → seconds in the recording of this case */
export const momentsIn = async (store: Store, caseId: string, stepId: string): Promise<Record<string, number>> =>
  (keptText(timesSchema, await store.draft(timesKey(caseId))) ?? {})[stepId] ?? {};

/** The names between start and end, in order; empty ones go. A name keeps its id, and with it its places. */
export async function nameMoments(store: Store, procedureId: string, stepId: string, names: readonly string[]) {
  const before = await momentsOf(store, procedureId, stepId);
  const between = names
    .map((label) => label.trim().slice(0, 60))
    .filter(Boolean)
    .slice(0, MOST_MOMENTS - 2)
    .map((label, at) => ({
      id: before.find((each) => each.label === label)?.id ?? `n${Date.now() % 1e9}-${at}`,
      label,
    }));
  const [start, end] = [firstMoments.find(({ id }) => id === START), firstMoments.find(({ id }) => id === END)];
  const all = [...(start ? [start] : []), ...between, ...(end ? [end] : [])];
  await store.saveDraft(namesKey(procedureId, stepId), JSON.stringify(all));
}

export const markMoment = (
  store: Store,
  { caseId, stepId, moment, at }: { caseId: string; stepId: string; moment: string; at: number },
): Promise<void> =>
  store.changeDraft(timesKey(caseId), (stored) => {
    const all = keptText(timesSchema, stored) ?? {};
    return JSON.stringify({ ...all, [stepId]: { ...all[stepId], [moment]: at } });
  });
