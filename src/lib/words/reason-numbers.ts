import { prose, timesAsLong } from '../format';
import { othersCases } from './others-cases';

type Range = { low: number; high: number };

/** Two thirds of cases, in seconds. */
export const betweenWords = ({ low, high }: Range): string =>
  `two thirds of cases between ${prose(low)} and ${prose(high)}`;

/** How many times as long as in the reference set, with the interval, and whose cases those are. */
export function againstReference(reference: { ratio: number } & Range & Parameters<typeof othersCases>[0]): string {
  const { ratio, low, high } = timesAsLong(reference);
  return `about ${ratio} times as long as in the reference set (${low} to ${high}; ${othersCases(reference)})`;
}
