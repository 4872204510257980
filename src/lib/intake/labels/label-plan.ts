import type { Procedure } from '../../model';
import type { Steps } from '../../turns';
import { stepLabel } from '../headings/targets';
import { briefly } from '../ledger';
import type { Ask, Option } from '../questions';
import { weights } from '../weights';
import type { LabelUse } from './label-uses';
import { labelMatcher, meaningOf, meaningValue, type Meaning, type Meanings } from './labels';
import { plainWords } from './plain-words';

/** What a label means in this file: one thing, several told apart by their place, or nothing that is taken. */
export type LabelPlan = {
  label: string;
  key: string;
  how: 'exact' | 'loose' | 'position' | 'chosen' | 'none';
  meanings: readonly Meaning[];
  rows: number;
};

/** Everything a label could be, to choose from. */
export function labelOptions(procedure: Procedure): Option[] {
  return [
    ...procedure.steps.filter((step) => !step.retired).map(({ id, label }) => ({ value: `step:${id}`, label })),
    { value: 'waiting:', label: 'waiting' },
    { value: 'leave', label: 'leave these rows out' },
  ];
}

export const meaningWords = (meaning: Meaning, procedure: Procedure): string => {
  if (meaning.kind === 'step') return stepLabel(procedure, meaning.stepId);
  if (meaning.kind === 'protected')
    return `protected part: ${procedure.steps.flatMap((step) => step.protectedParts).find((part) => part.id === meaning.partId)?.label ?? meaning.partId}`;
  const reason = procedure.waitingReasons.find(({ id }) => id === meaning.reason);
  return reason ? `waiting: ${reason.label}` : 'waiting';
};

/** Only so many unknown labels are asked about: more than that is not a column of steps. */
const MOST_ASKED = 30;

/**
 * Reads every label of a file once: by its name, as chosen, or asked. An unknown or unclear label is left out,
 * and said so, until somebody says what it is.
 *
 * @param options.chapters our own chapter marks carry the steps' labels, so a label stands for itself.
 */
export function* planLabels(
  uses: readonly LabelUse[],
  procedure: Procedure,
  options: { ours: boolean; chapters: boolean; choices: Readonly<Record<string, string>>; ask: Ask },
): Steps<Map<string, LabelPlan>> {
  const match = labelMatcher(procedure, options.ours);
  const all = labelOptions(procedure);
  const understood: { use: LabelUse; how: Meanings['how']; meanings: readonly Meaning[] }[] = [];
  const present = new Set<string>();
  for (const use of uses) {
    yield weights.name;
    const { how, meanings } = match(use.label);
    understood.push({ use, how, meanings });
    for (const meaning of meanings) if (meaning.kind === 'step') present.add(meaning.stepId);
  }
  const plans = new Map<string, LabelPlan>();
  let asked = 0;
  for (const { use, how, meanings } of understood) {
    yield weights.name;
    const { label, rows, examples } = use;
    const key = `label:${plainWords(label)}`;
    const plan = (planned: Pick<LabelPlan, 'how' | 'meanings'>) => plans.set(label, { label, key, rows, ...planned });
    const chosen = options.choices[key];
    const itself = options.ours || (options.chapters && procedure.steps.some((step) => step.label === label));
    const parts = itself ? null : partOfMerged(meanings, present, procedure);
    const doubtful = parts !== null || how === 'none' || how === 'unclear';
    if (chosen !== undefined && !doubtful && all.some(({ value }) => value === chosen)) {
      plan({ how: 'chosen', meanings: meant(chosen) });
    } else if (!doubtful) {
      plan({ how: meanings.length > 1 ? 'position' : how, meanings });
    } else {
      asked += 1;
      const question = {
        id: key,
        ...wording(label, how, meanings, parts, procedure),
        // A name nobody knows may be a step, and its times are gone if a guess decides. Several lines are no name: the row is torn.
        mustAnswer: (how === 'none' || how === 'unclear') && !/[\r\n]/.test(label),
        options: all,
        examples,
      };
      const answer = asked > MOST_ASKED ? 'leave' : options.ask(question);
      plan({ how: answer === chosen ? 'chosen' : 'none', meanings: meant(answer) });
    }
  }
  return plans;
}

const meant = (answer: string): Meaning[] => (answer === 'leave' ? [] : [meaningOf(answer)]);

function wording(
  label: string,
  how: string,
  meanings: readonly Meaning[],
  part: string | null,
  procedure: Procedure,
): { question: string; guess: string } {
  if (part !== null) {
    const merged = meanings[0] ? meaningWords(meanings[0], procedure) : label;
    return {
      question: `Is "${briefly(label)}" the whole of ${merged.toLowerCase()}, or ${stepLabel(procedure, part).toLowerCase()} alone? Other rows name the rest of it.`,
      guess: `step:${part}`,
    };
  }
  if (how === 'unclear')
    return {
      question: `"${briefly(label)}" could be ${meanings.map((meaning) => meaningWords(meaning, procedure).toLowerCase()).join(' or ')}. Which step is it?`,
      guess: 'leave',
    };
  return {
    question: `No step of ${procedure.name.toLowerCase()} is known as "${briefly(label)}". Which step is it?`,
    guess: 'leave',
  };
}

/**
 * A name of a merged step ("incision") beside rows that name one of its parts ("side port") usually means the part that is left.
 * @returns the id of that part, or `null` where nothing is doubtful.
 */
function partOfMerged(meanings: readonly Meaning[], present: ReadonlySet<string>, procedure: Procedure): string | null {
  const [only] = meanings;
  if (meanings.length !== 1 || only?.kind !== 'step') return null;
  const parts = procedure.steps.find(({ id }) => id === only.stepId)?.mergeOf ?? [];
  const left = parts.filter((id) => !present.has(id));
  return left.length === 1 && left.length < parts.length ? (left[0] ?? null) : null;
}

export const planValue = (plan: LabelPlan): string => plan.meanings.map(meaningValue).join(' ') || 'leave';
