import type { Case, Hands } from '../../model';
import { nameMatcher } from '../labels/name-matcher';
import { named } from '../labels/plain-words';
import { blankOf } from '../table/blanks';

/** Words for somebody's place in training or in the team, in six languages (from memory): whoever brings the file in may be one of them. */
export const ROLES: readonly string[] =
  named(`supervisor, trainer, trainee, consultant, assistant, senior, resident, fellow,
  registrar, attending, assistent, assistenz, assistenzarzt, oberarzt, weiterbildung, interne, chef, residente, adjunto,
  tutor, specializzando, interno`);

const match = nameMatcher<Hands>(
  [
    {
      value: 'mine',
      names:
        named(`mine, me, m, i, o, own, self, all mine, all my own, my own, myself, ich, selbst, selber, eigen, eigene, moi,
    moi meme, yo, yo mismo, propio, io, mio, eu, eu mesmo, khud`),
    },
    {
      value: 'someone-else',
      names: [...named(`someone else, someone-else, other, others, s, not mine`), ...ROLES],
    },
    {
      value: 'taken-over',
      names: named(`taken over, taken-over, taken over here, takeover, take over, t, took over, supervisor took over,
    ubernommen, repris, reprise, tomado, preso`),
    },
    {
      value: 'shared',
      names: named(
        `shared, both, some, partly mine, together, b, beide, gemeinsam, zusammen, les deux, ambos, entrambi`,
      ),
    },
  ],
  { within: false },
);

/** How each is called on a screen, and read again. */
export const HANDS_CALLED: Record<Hands, string> = {
  mine: 'mine',
  'someone-else': 'someone else',
  'taken-over': 'taken over',
  shared: 'shared',
};

/** Said where the words are not known; they may be a colleague's name, so they are not repeated. */
export const WHOSE_HANDS =
  'These words do not say whose hands (mine, someone else, taken over, shared); they are taken as shared. Say what they mean, or correct them.';

/** Whose hands; `null` where nothing is said; `undefined` where the word is not known (it may be a name, so it is not repeated). */
export function readHands(text: string): Hands | null | undefined {
  if (text === '' || blankOf(text) !== null) return null;
  const found = match(text);
  return found.how === 'exact' || found.how === 'loose' ? found.values[0] : undefined;
}

/**
 * Whole case and steps from what is said of single steps. Two answers for one step mean it was shared.
 *
 * @param whole said for the whole case, or `null`: then the same answer for every step is that of the case, else it is mine.
 */
export function handsOf(
  said: readonly { stepId: string; hands: Hands }[],
  whole: Hands | null,
  stepIds: readonly string[],
): Case['hands'] {
  const steps = new Map<string, Hands>();
  for (const { stepId, hands } of said) {
    const before = steps.get(stepId);
    steps.set(stepId, before === undefined || before === hands ? hands : 'shared');
  }
  const [first] = steps.values();
  const all =
    first !== undefined &&
    stepIds.every((id) => steps.get(id) === first) &&
    [...steps.values()].every((hands) => hands === first);
  const ofCase = whole ?? (all ? first : 'mine');
  return { whole: ofCase, steps: Object.fromEntries([...steps].filter(([, hands]) => hands !== ofCase)) };
}
