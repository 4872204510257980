import type { Case, ListRecord, Profile, When } from '../../model';
import { randomStream } from '../../statistics';

/** Which cases of a list are to be timed: all, or some drawn by chance before the list begins. */
export type TimingPlan = NonNullable<Profile['timingPlan']>;

/**
 * What a list is drawn by, known before it begins: its day, or its number. `null` for a month or nothing, where the
 * draw could not have been known beforehand.
 */
export function planKey(when: When): string | null {
  if (when.kind === 'date') return when.date;
  return when.kind === 'number' ? `list ${when.number}` : null;
}

/**
 * The places to be timed in a list of so many operations, in order, from 1. Drawn by the plan's seed and the list
 * alone, so that nobody picks the easy eyes. Each place is drawn by itself: a list that ends early, or runs on, keeps
 * the draws of the places it has.
 */
export function plannedPositions(key: string, operated: number, plan: TimingPlan): number[] {
  const places = Array.from({ length: Math.max(0, Math.floor(operated)) }, (_, index) => index + 1);
  if (plan.perList === 'all') return places;
  const letters = [...key].map((letter) => letter.codePointAt(0) ?? 0);
  const lot = new Map(places.map((place) => [place, randomStream(plan.seed, place, ...letters).uniform()]));
  return places
    .sort((a, b) => (lot.get(a) ?? 0) - (lot.get(b) ?? 0) || a - b)
    .slice(0, plan.perList)
    .sort((a, b) => a - b);
}

export type AsPlanned = {
  timed: number;
  /** Operations of the lists these cases come from; `null` where one list does not say. */
  operated: number | null;
  /** Timed cases the plan had drawn; `null` without a plan. */
  asPlanned: number | null;
  /** Places the plan had drawn in these lists; `null` without a plan. */
  planned: number | null;
};

/**
 * How far timing kept to the plan, over the lists of these cases. A list without a day or number, a case without a place:
 * not as planned, since nothing could have drawn it.
 *
 * @param cases those of a window, or of anything else that is to be told; timed are the ones with a stretch of a step
 * @param all every case of the record: a list holds at least the operations that are in it
 */
export function asPlanned(
  cases: readonly Case[],
  lists: readonly ListRecord[],
  plan: TimingPlan | null,
  all: readonly Case[] = cases,
): AsPlanned {
  const timed = cases.filter(({ stretches }) => stretches.some(({ kind }) => kind === 'step'));
  const ids = new Set(timed.map(({ listId }) => listId));
  const on = lists.filter(({ id }) => ids.has(id));
  const said = on.map(({ id, operated }) => {
    const here = all.filter(({ listId }) => listId === id);
    const last = here.reduce((most, { position }) => Math.max(most, position ?? 0), here.length);
    return { id, operated, least: Math.max(operated ?? 0, last) };
  });
  const drawn = new Map(
    on.map(({ id, when }) => {
      const key = planKey(when);
      const least = said.find((one) => one.id === id)?.least ?? 0;
      return [id, plan && key !== null ? plannedPositions(key, least, plan) : []] as const;
    }),
  );
  return {
    timed: timed.length,
    operated:
      ids.has(null) || said.some(({ operated }) => operated === null)
        ? null
        : said.reduce((sum, { least }) => sum + least, 0),
    asPlanned: plan
      ? timed.filter(
          ({ listId, position }) => listId !== null && position !== null && drawn.get(listId)?.includes(position),
        ).length
      : null,
    planned: plan ? [...drawn.values()].reduce((sum, places) => sum + places.length, 0) : null,
  };
}

/** "20 timed of 41 operated, 18 as planned." Says what is not known instead of leaving it out. */
export function asPlannedWords({ timed, operated, asPlanned: kept }: AsPlanned): string {
  const of =
    operated === null
      ? `${timed} timed; how many were operated is not noted for every list`
      : `${timed} timed of ${operated} operated`;
  return kept === null ? `${of}; there is no timing plan.` : `${of}, ${kept} as planned.`;
}
