import type { CannotCompare, CannotLookBack } from '../practice';
import { cannotFitWords, notANumberWords } from './cannot';

/** Why one step, or the whole operation, cannot be compared between two stretches. */
export function cannotCompareWords(why: CannotCompare): string {
  switch (why.code) {
    case 'few-cases':
      return `Done in fewer than ${why.needed} cases of one of the two.`;
    case 'few-other-steps':
      return 'Fewer than three other steps are timed in both, so there is nothing to compare it with.';
    case 'few-rest-cases':
      return 'Three other steps are timed beside it in too few of these cases.';
    case 'few-lists':
      return 'In one of the two it comes from fewer than three lists: a good or bad list could be all of it.';
    default:
      return cannotFitWords(why);
  }
}

/** Why two stretches cannot be compared at all. */
export function cannotLookBackWords(why: CannotLookBack): string {
  switch (why.code) {
    case 'in-both':
      return `${why.cases === 1 ? 'One case is' : `${why.cases} cases are`} in both: two stretches are compared that share no case.`;
    case 'few-cases':
      return `${why.needed} counted cases are needed in each${why.listsKnown ? '' : ', because lists are not known'}; there are ${why.earlier} and ${why.later}.`;
    case 'few-lists':
      return `${why.needed} lists are needed in each; there are ${why.earlier} and ${why.later}.`;
    case 'not-a-number':
      return notANumberWords(why);
  }
}
