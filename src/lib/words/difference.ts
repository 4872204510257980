import type { DifferenceCannot } from '../audit';

/** Why the difference of a step cannot be said. */
export function differenceCannotWords(why: DifferenceCannot, start = 'Cannot say'): string {
  switch (why.code) {
    case 'too-few-cases':
      return `${start} yet: ${why.cases} of the ${why.needed} cases it needs.`;
    case 'too-few-lists':
      return `${start} yet: the step was done on too few lists.`;
    case 'all-equal':
      return `${start}: all its times are equal. Were they rounded, or copied?`;
    case 'whole-seconds':
      return `${start}: whole seconds are too coarse for a step this short or this even.`;
  }
}

/** The same below the median of the step. */
export const shorterCannotWords = (why: DifferenceCannot): string =>
  differenceCannotWords(why, 'How far your shorter cases lie below that cannot be said');

/** A few words in place of a difference that cannot be said. */
export const differenceInstead = (why: DifferenceCannot | null): string => (why ? INSTEAD[why.code] : 'cannot say yet');

const INSTEAD: Record<DifferenceCannot['code'], string> = {
  'too-few-cases': 'cannot say yet: too few cases',
  'too-few-lists': 'cannot say yet: too few lists',
  'all-equal': 'cannot say: all times equal',
  'whole-seconds': 'whole seconds are too coarse',
};
