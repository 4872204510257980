/** A moment of a step, in the surgeon's own words. */
export type Moment = { id: string; label: string };

/** Where the moments of one step stand in one recording: moment id → seconds. Missing: not marked in this one. */
export type MomentTimes = Readonly<Record<string, number>>;

/** The two that every step has: they come with its marks. */
export const START = 'start';
export const END = 'end';

/** Moments between start and end that a step begins with; the surgeon can name others. */
export const firstMoments: readonly Moment[] = [
  { id: START, label: 'start' },
  { id: 'm1', label: 'first change of instrument' },
  { id: 'm2', label: 'half of it done' },
  { id: END, label: 'end' },
];

/** The most a row of choices can hold before it stops being one. */
export const MOST_MOMENTS = 9;

/** Start and end from the step's own intervals, the others as marked; one outside of the step is still where it was put. */
export function momentTimes(
  stretches: readonly { start: number; end: number }[],
  marked: MomentTimes,
): Record<string, number> {
  const [first, last] = [
    Math.min(...stretches.map(({ start }) => start)),
    Math.max(...stretches.map(({ end }) => end)),
  ];
  return {
    ...marked,
    ...(Number.isFinite(first) ? { [START]: first } : {}),
    ...(Number.isFinite(last) ? { [END]: last } : {}),
  };
}
