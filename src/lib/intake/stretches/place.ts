import { itemAt } from '../../item-at';

/**
 * Which of several steps one name stands for, by where it stands: "viscoelastic" before the capsulorhexis fills
 * the chamber, just before the lens it refills the bag; "irrigation and aspiration" after the lens takes viscoelastic out.
 *
 * @param candidates places in the order of the operation, ascending.
 * @param before, after the nearest steps that are beyond doubt, as places; `null` where there is none.
 * @returns the candidate, and whether its place is beyond doubt too.
 */
export function placeOf(
  candidates: readonly number[],
  before: number | null,
  after: number | null,
): { place: number; clear: boolean } {
  const first = candidates[0] ?? 0;
  const last = candidates.at(-1) ?? first;
  const fits = candidates.filter((place) => (before ?? -1) <= place && place <= (after ?? Infinity));
  if (fits.length > 0) return { place: fits[0] ?? first, clear: true };
  if (before === null || before < first) return { place: first, clear: true };
  if (after === null || after > last) return { place: last, clear: true };
  // Right after the step that follows it (cortex after polishing): plainly returned to.
  if (before - first === 1) return { place: first, clear: true };
  // Between the two, as when the chamber is filled again half-way: the first was returned to, and asked about.
  return { place: first, clear: false };
}

export type Placed<T> = { item: T; stepId: string; clear: boolean; byPlace: boolean };

/**
 * Gives every item of one case, in order of time, one step. Items with one candidate are beyond doubt and decide for the others.
 *
 * @param order step ids in the order of the operation.
 */
export function placeAll<T>(
  items: readonly T[],
  stepsOf: (item: T) => readonly string[],
  order: readonly string[],
): Placed<T>[] {
  const at = new Map(order.map((id, index) => [id, index]));
  const candidates = items.map((item) =>
    stepsOf(item)
      .map((id) => at.get(id) ?? 0)
      .sort((a, b) => a - b),
  );
  const sure = candidates.map((places) => (places.length === 1 ? (places[0] ?? null) : null));
  const after: (number | null)[] = [];
  for (let index = items.length - 1, next: number | null = null; index >= 0; index -= 1) {
    after[index] = next;
    next = sure[index] ?? next;
  }
  let before: number | null = null;
  return items.map((item, index) => {
    const places = candidates[index] ?? [];
    const found =
      places.length === 1 ? { place: itemAt(places, 0), clear: true } : placeOf(places, before, after[index] ?? null);
    before = sure[index] ?? before;
    return { item, stepId: order[found.place] ?? '', clear: found.clear, byPlace: places.length > 1 };
  });
}
