import { counted, inSentence, listed, longerBy, ofHundred, prose } from '../format';
import type { GivenReason, PlanDraft, RuleId, ShortCase } from '../rules';
import { againstReference, betweenWords } from './reason-numbers';

/** Why a rule fired, or why a checkpoint or drill is given. `labelOf`: the label of a step by its id. */
export function planReasonWords(reason: GivenReason, labelOf: (stepId: string) => string): string {
  if (reason.code === 'protected-parts')
    return `${listed(reason.missed.map(({ label, seen, looked }) => `${label}: seen in ${seen} of ${looked} cases`))}. These come first.`;
  if (reason.code === 'after-a-break')
    return `Your latest list came ${reason.numbers.weeks} weeks after the one before it. After a break the first lists are for doing it as before, not for changing it.`;
  if (reason.code === 'pair') return `${reason.shorter} was shorter and ${reason.longer} longer: watch these two.`;
  const label = labelOf(reason.stepId);
  const step = inSentence(label);
  switch (reason.code) {
    case 'event':
      return reason.numbers.unreviewed > 0
        ? `A serious event at ${step} is waiting for review. Until then the plan leaves time out.`
        : `${reason.numbers.last100} serious events at ${step} in the last 100 answered cases. The plan leaves time out.`;
    case 'event-recent':
      return `An event or near miss at ${step} was recorded ${casesAgo(reason.numbers.casesAgo)}. The plan leaves time out until ${reason.numbers.quietFor} cases have passed since.`;
    case 'hasty':
      return `Among the shortest fifth of your cases at ${step}: ${shortCases(reason.cases)}. Look at ${reason.cases.length === 1 ? 'it' : 'them'} before anything else here.`;
    case 'taken-over':
      return `${label} was taken over in ${reason.numbers.takenOver} of ${reason.numbers.cases} cases. Find in two of them what the last sign before it was.`;
    case 'not-to-shorten':
      return `${label} is not to be shortened. You can look at doing it the same way each time.`;
    case 'after-earlier': {
      const earlier = reason.earlierStepId === null ? 'an earlier step' : inSentence(labelOf(reason.earlierStepId));
      return `After a long ${earlier}, ${step} takes ${longerBy(reason.numbers)}. The two go together; this does not show that one causes the other. Look at ${earlier} first.`;
    }
    case 'certain-eyes':
      return `${label} takes ${longerBy(reason.numbers)} with ${reason.label} (${reason.numbers.nWith} eyes). Longer in these eyes is expected.`;
    case 'circumstances':
      return `${label} takes ${longerBy(reason.numbers)} with ${reason.label} (${reason.numbers.nWith} cases). Prepare for what is different there; the time itself is no fault.`;
    case 'late-in-list':
      return `In the last third of the list, ${step} takes ${longerBy(reason.numbers)}.`;
    case 'first-on-list':
      return `As the first on the list, ${step} takes ${longerBy(reason.numbers)}.`;
    case 'renewed':
      return `${labelOf(reason.earlierStepId)} was returned to in ${returned(reason.numbers)}, and ${step} builds on it. Look there first.`;
    case 'over-time':
      return `${label} has been taking longer over time: ${longerBy(reason.numbers)} ${reason.label}. What changed: machine, technique, teaching?`;
    case 'bimodality':
      return `${label} shows ${reason.label}: perhaps two techniques are in use. Choose between them deliberately.`;
    case 'returned-to':
      return `${label} was returned to in ${returned(reason.numbers)}: the end point was often not reached the first time.`;
    case 'mostly-waiting': {
      const why = reason.waitingReason ? `, most of it ${inSentence(reason.waitingReason)}` : '';
      return `Waiting at ${step} takes ${prose(reason.numbers.perCase)} a case${why} (noted in ${reason.numbers.cases} cases): a matter for the team.`;
    }
    case 'varies': {
      const { twoThirds } = reason.numbers;
      const varies = `${label} varies (${twoThirds ? betweenWords(twoThirds) : 'much'})`;
      return reason.shorterFifthClean
        ? `${varies}, and the shortest fifth of your cases had no event and every protected part seen. What differs in the set-up?`
        : `${varies}. Whether anything was left out in the shortest fifth of your cases is not known: look at that first.`;
    }
    case 'longer': {
      const { reference, share } = reason.numbers;
      const longer = reference
        ? `takes ${againstReference(reference)}`
        : `holds the most seconds between your median and your 20th percentile in ${ofHundred(share)} of 100 resamples`;
      return `${label} ${longer}. Compare a shorter and a longer case.`;
    }
    case 'aimed-eyes':
      return `Written for eyes like these (${reason.label}).`;
    case 'any-case':
      return `Worth a look in any ${step}.`;
    case 'off-the-patient':
      return `Rehearses ${step} away from any patient.`;
  }
}

/** So many are named. */
const NAMED = 5;

/** "F103 (chamber refill not seen) and F117 (an event)": the cases to look at, and why. */
function shortCases(cases: readonly ShortCase[]): string {
  const named = cases.slice(0, NAMED).map(({ code, event, notSeen }) => {
    const missed = notSeen.length > 0 ? [`${listed(notSeen.map(inSentence))} not seen`] : [];
    return `${code} (${[...(event ? ['an event'] : []), ...missed].join('; ')})`;
  });
  return listed([...named, ...(cases.length > NAMED ? [`${cases.length - NAMED} more`] : [])]);
}

const returned = ({ cases, of }: { cases: number; of: number }): string => `${cases} of ${of} cases`;

/** What a reason reminds of, beside the reminders of the step's page. */
const REMINDERS: Partial<Record<RuleId, string>> = {
  event: 'Look at the case with a senior colleague before you plan anything else on this step.',
  'taken-over': 'Agree before the list at which sign this step is handed over, and who says so.',
  'certain-eyes':
    'The extra time in these eyes is well spent: prepare for them, and aim to do it the same way each time.',
  'late-in-list': 'Read the note once more before a long list begins: its last third demands most of you.',
  'first-on-list': 'Set chair, microscope, pedals and machine before the first case, and say so to the team.',
  'mostly-waiting': 'Waiting is not a fault, and part of it is checking.',
};

/** Every reminder of a draft, each once: those of the page, then those of its reasons. */
export const draftReminders = ({ reminders, because }: Pick<PlanDraft, 'reminders' | 'because'>): string[] => [
  ...new Set([...reminders, ...because.flatMap(({ code }) => REMINDERS[code] ?? [])]),
];

/** How long ago an event was, in cases of the same record: 0 for the latest case. */
const casesAgo = (cases: number): string => (cases === 0 ? 'in your latest case' : `${counted(cases, 'case')} ago`);
