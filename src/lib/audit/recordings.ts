import type { Case } from '../model';

/** Noted by hand while the operation went on: there is no recording of it to be watched. */
export const canBeWatched = ({ source }: Pick<Case, 'source'>): boolean => source.kind !== 'by-hand';

/** Are there two that can be watched, one after the other? */
export const twoToWatch = (cases: readonly Pick<Case, 'source'>[]): boolean => cases.filter(canBeWatched).length >= 2;
