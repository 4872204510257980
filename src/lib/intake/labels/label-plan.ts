import type { Procedure } from '../../model';
import { labelMatcher, meaningOf, meaningValue, type Meaning } from './labels';
import { briefly } from '../ledger';
import { plainWords } from './plain-words';
import type { Ask, Option } from '../questions';
import { stepLabel } from '../headings/targets';
import { intakeThresholds } from '../thresholds';

/** A label of the step column, how often it stands there, and where first. */
export type LabelUse = { label: string; rows: number[] };

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
export function planLabels(
  uses: readonly LabelUse[],
  procedure: Procedure,
  options: { ours: boolean; chapters: boolean; choices: Readonly<Record<string, string>>; ask: Ask },
): Map<string, LabelPlan> {
  const match = labelMatcher(procedure, options.ours);
  const plans = new Map<string, LabelPlan>();
  const present = new Set(
    uses.flatMap(({ label }) =>
      match(label).meanings.flatMap((meaning) => (meaning.kind === 'step' ? [meaning.stepId] : [])),
    ),
  );
  let asked = 0;
  for (const { label, rows } of uses) {
    const { how, meanings } = match(label);
    const key = `label:${plainWords(label)}`;
    const base = { label, key, rows: rows.length };
    const all = labelOptions(procedure);
    const chosen = options.choices[key];
    const itself = options.ours || (options.chapters && procedure.steps.some((step) => step.label === label));
    const parts = itself ? null : partOfMerged(meanings, present, procedure);
    const doubtful = how === 'none' || how === 'unclear' || parts !== null;
    if (chosen !== undefined && !doubtful && all.some(({ value }) => value === chosen)) {
      plans.set(label, { ...base, how: 'chosen', meanings: chosen === 'leave' ? [] : [meaningOf(chosen)] });
    } else if (!doubtful) {
      plans.set(label, { ...base, how: meanings.length > 1 ? 'position' : how, meanings });
    } else {
      asked += 1;
      const answer =
        asked > MOST_ASKED
          ? 'leave'
          : options.ask({
              id: key,
              ...wording(label, how, meanings, parts, procedure),
              options: all,
              examples: examplesOf(label, rows),
            });
      plans.set(label, {
        ...base,
        how: answer === chosen ? 'chosen' : 'none',
        meanings: answer === 'leave' ? [] : [meaningOf(answer)],
      });
    }
  }
  return plans;
}

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

const examplesOf = (label: string, rows: readonly number[]) =>
  rows.slice(0, intakeThresholds.examples).map((row) => ({ row, text: briefly(label) }));

export const planValue = (plan: LabelPlan): string => plan.meanings.map(meaningValue).join(' ') || 'leave';
