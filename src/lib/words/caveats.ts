import type { AuditCaveat } from '../audit';
import type { EyeCaveat, ResultCaveat } from '../model';
import type { StartedGoal } from '../practice';
import { cannotJudgeWords } from './cannot';
import { unusedFact } from './not-used';
import { inSentence, listed } from '../format';

type StartCaveat = StartedGoal['caveats'][number];
type StepCaveat = Extract<AuditCaveat, { step: string }>;

/** What of a fact of the eye was left out of the adjustment. */
export function eyeCaveatWords(caveat: EyeCaveat): string {
  const unused = unusedFact(caveat);
  if (unused) return `${unused.what} ${unused.many ? 'are' : 'is'} not used: ${unused.why}.`;
  if (caveat.code === 'rare-levels') {
    const { fact, rare, of } = caveat;
    return `${fact}: ${rare} of ${of} cases ${rare === 1 ? 'has a rare level' : 'have rare levels'}, too few to be told apart.`;
  }
  return `${caveat.fact} is only partly used: it is tied to facts already used.`;
}

/** What should be known beside a result; a sentence of an earlier version stays as it was read. */
export function resultCaveatWords(caveat: ResultCaveat): string {
  switch (caveat.code) {
    case 'gone-since':
      return `${caveat.cases === 1 ? 'One baseline or window case has' : `${caveat.cases} baseline or window cases have`} since been left out or erased.`;
    case 'paused-and-cannot':
      return cannotJudgeWords(caveat.why);
    case 'as-read':
      return caveat.sentence;
    default:
      return eyeCaveatWords(caveat);
  }
}

/** What should be known of the cases a goal starts from. */
export function startCaveatWords(caveat: StartCaveat): string {
  switch (caveat.code) {
    case 'already-shorter':
      return `The step was already getting shorter, so only the latest ${caveat.latest} cases are the baseline.`;
    case 'order-unknown':
      return 'The order of these cases is not known, so nothing over time was looked at.';
    case 'lists-unknown':
      return 'Lists are not known, so neighbouring cases are treated as one list.';
    default:
      return eyeCaveatWords(caveat);
  }
}

/** What should be known before reading anything into the numbers of an audit. */
export function auditCaveatWords(caveat: AuditCaveat): string {
  switch (caveat.code) {
    case 'single-cases':
      return `${caveat.listsKnown ? 'There are fewer than six lists' : 'Lists are not known and the record is short'}, so single cases are resampled: differences between lists are not in the uncertainty.`;
    case 'adjusted-for-less':
      return `${caveat.step}: adjusted for ${caveat.nothing ? 'nothing' : 'fewer facts'}, only ${caveat.cases} cases.`;
    case 'not-adjusted':
      return `${caveat.step}: not adjusted, ${NOT_ADJUSTED[caveat.why]}.`;
    default:
      return eyeCaveatWords(caveat);
  }
}

/** The same of a whole audit: what holds of several steps is said once, with their names. */
export function auditCaveatsWords(caveats: readonly AuditCaveat[]): string[] {
  return caveats.flatMap((caveat) => {
    if (caveat.code !== 'adjusted-for-less') return [auditCaveatWords(caveat)];
    const alike = caveats.filter(
      (each) => each.code === caveat.code && each.nothing === caveat.nothing,
    ) as (typeof caveat)[];
    if (alike.length === 1) return [auditCaveatWords(caveat)];
    if (alike[0] !== caveat) return [];
    const counts = alike.map(({ cases }) => cases);
    const [least, most] = [Math.min(...counts), Math.max(...counts)];
    const so = least === most ? `${least} cases each` : `${least} to ${most} cases each`;
    const what = caveat.nothing ? 'Not adjusted' : 'Adjusted for fewer facts';
    return [`${what}, with only ${so}: ${listed(alike.map(({ step }) => inSentence(step)))}.`];
  });
}

const NOT_ADJUSTED: Record<Extract<StepCaveat, { code: 'not-adjusted' }>['why'], string> = {
  'too-few': 'too few cases',
  'no-variation': 'the times hardly vary',
  'not-a-number': 'a value is not a number',
};
