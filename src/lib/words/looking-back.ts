import { capital, clock, counted, inSentence, lessOrMore, listed, rangeOfRatios } from '../format';
import type { Compared, ComparedStep, LookingBack } from '../practice';
import { cannotCompareWords, cannotLookBackWords } from './cannot-compare';
import type { EffectRow } from './reported-result';

/** When the two stretches were, as a sentence goes on: "in January to June 2026", "in cases C1 to C50". */
export type StretchNames = { earlier: string; later: string };

export type LookingBackWords = {
  head: string;
  sentences: readonly string[];
  doesNotSay: readonly string[];
};

/**
 * In `npm run bench -- characteristics`, nine steps, fifty cases over ten lists in each stretch. Records of 100 in which
 * nothing changed and a step or the whole is named: 5.3 fixed beforehand, 6.3 at the best of thirteen dates. A step a
 * fifth shorter is named in 88, and in 72 where the date is chosen freely.
 */
export const LOOKING_BACK_RATES = { wrongFixed: 5, wrongFree: 6, foundFixed: 9, foundFree: 7 } as const;

type Answer = Extract<Compared, { kind: 'shorter' | 'longer' | 'not-clear' }>;

/** What comparing two stretches says, never why. */
export function lookingBackWords(said: LookingBack, names: StretchNames): LookingBackWords {
  if (said.kind === 'cannot')
    return { head: 'These two cannot be compared.', sentences: [cannotLookBackWords(said.why)], doesNotSay: [] };
  const named = said.steps.filter(({ compared }) => isNamed(compared));
  const answers = [...said.steps.map(({ compared }) => compared), said.whole];
  if (answers.every(({ kind }) => kind === 'cannot'))
    return {
      head: 'These two cannot be compared.',
      sentences: [
        ...new Set(answers.flatMap((each) => (each.kind === 'cannot' ? [cannotCompareWords(each.why)] : []))),
      ],
      doesNotSay: [],
    };
  const anything = named.length > 0 || isNamed(said.whole);
  return {
    head: `${headOf(named, said.whole)} ${names.later} than ${names.earlier}.`,
    sentences: [
      ...named.map(
        ({ label, compared }) =>
          `${sentenceStart(label)} took about ${ratioWords(compared as Answer)} time than the rest of the same operations would lead you to expect (${intervalWords(compared as Answer)}).`,
      ),
      ...(isNamed(said.whole)
        ? [
            `All steps together took about ${ratioWords(said.whole as Answer)} time (${intervalWords(said.whole as Answer)}).`,
          ]
        : []),
      `${sizeWords(said.later)} against ${sizeWords(said.earlier)}${said.adjusted ? ', adjusted for the eye' : ''}.`,
      ...(anything ? [] : ['This is not "no change": what still fits is drawn beside each step.']),
      ...(said.alpha < 0.05 ? ['Because these dates were chosen freely, it is judged more strictly.'] : []),
    ],
    doesNotSay: [
      'Why, or that anything is safer. Easier eyes, other lists, help in theatre, a machine and growing experience can each look like this.',
      `That a step not named stayed the same. Had one step become a fifth shorter, fifty cases in each would show it about ${said.alpha < 0.05 ? LOOKING_BACK_RATES.foundFree : LOOKING_BACK_RATES.foundFixed} times in 10.`,
      said.alpha < 0.05
        ? `When nothing has changed and thirteen dates are tried, the best of them names something in about ${LOOKING_BACK_RATES.wrongFree} records of 100.`
        : `When nothing has changed, something is named in about ${LOOKING_BACK_RATES.wrongFixed} records of 100.`,
    ],
  };
}

const isNamed = ({ kind }: Compared) => kind === 'shorter' || kind === 'longer';
const sentenceStart = (label: string) => capital(inSentence(label));
const ratioWords = ({ effect }: Answer) => lessOrMore(Math.exp(effect.estimate));
const intervalWords = ({ effect }: Answer) => rangeOfRatios(Math.exp(effect.low), Math.exp(effect.high));

const sizeWords = ({ cases, lists }: LookingBack['earlier']) =>
  `${counted(cases.length, 'case')}${lists === null ? '' : ` over ${counted(lists, 'list')}`}`;

/** "Capsulorhexis and hydrodissection were shorter, nucleus removal was longer"; without the closing words. */
function headOf(named: readonly ComparedStep[], whole: Compared): string {
  const part = (kind: 'shorter' | 'longer') => {
    const names = [
      ...(whole.kind === kind ? ['the operation as a whole'] : []),
      ...named.filter(({ compared }) => compared.kind === kind).map(({ label }) => inSentence(label)),
    ];
    return names.length === 0 ? [] : [`${listed(names)} ${names.length === 1 ? 'was' : 'were'} ${kind}`];
  };
  const parts = [...part('shorter'), ...part('longer')];
  return parts.length === 0 ? 'No step was clearly shorter or longer' : capital(listed(parts));
}

/** A row a step, and the whole last: the change with its own 95 % interval, and the medians as recorded. */
export function lookingBackRows(said: Extract<LookingBack, { kind: 'compared' }>): EffectRow[] {
  const row = (id: string, label: string, under: string, compared: Compared): EffectRow[] =>
    compared.kind === 'cannot'
      ? []
      : [
          {
            id,
            label,
            under,
            ratio: Math.exp(compared.effect.estimate),
            low: Math.exp(compared.effect.low),
            high: Math.exp(compared.effect.high),
            words: `${ratioWords(compared)} (${intervalWords(compared)})`,
            bold: isNamed(compared),
          },
        ];
  return [
    ...said.steps.flatMap(({ stepId, label, earlier, later, compared }) =>
      row(stepId, label, `median ${clock(earlier.median ?? 0)}, then ${clock(later.median ?? 0)}`, compared),
    ),
    ...row('whole', 'All steps together', 'mean of the steps compared', said.whole),
  ];
}
