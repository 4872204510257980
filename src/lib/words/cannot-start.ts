import type { CannotStart } from '../practice';
import { listsWords, notANumberWords } from './cannot';

/** Why no goal can start from these cases. */
export function cannotStartWords(why: CannotStart): string {
  switch (why.code) {
    case 'unknown-step':
      return `${why.procedure} has no step "${why.step}".`;
    case 'order-unknown':
      return 'The order of these cases is not known, so they cannot be divided into before and after. A goal can start from cases timed from now on.';
    case 'no-variation':
      return 'These times hardly vary, or only by whole seconds, so a change could not be judged.';
    case 'few-cases':
      return fewCasesWords(why);
    case 'few-lists':
      return `These cases come from ${listsWords(why.lists)}; at least ${why.needed} are needed, or one good or bad list could account for the whole change.`;
    case 'not-a-number':
      return notANumberWords(why);
  }
}

function fewCasesWords({ counted, needed, eyes, since }: Extract<CannotStart, { code: 'few-cases' }>): string {
  const more = needed - counted;
  const sinceChange = since ? ' Counted from the change that an earlier goal on this step ended with.' : '';
  return eyes === null
    ? `${counted} cases count for this step; a goal needs ${needed}. ${more} more will do.${sinceChange}`
    : `${counted === 1 ? 'One case counts' : `${counted} cases count`} for this step with ${eyes}; a goal on its time needs ${needed}. ${more} more will do; until then only the checkpoints can be measured.${sinceChange}`;
}
