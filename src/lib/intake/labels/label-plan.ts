import type { Procedure } from '../../model';
import { mapped, type Work } from '../../turns';
import { cellOf, type Column } from '../headings/column-set';
import type { RowFacts } from '../table/row-facts';
import { labelMatcher, meaningOf, meaningValue, type Meaning } from './labels';
import { briefly, type Ledger } from '../ledger';
import { plainWords } from './plain-words';
import type { Ask, Option } from '../questions';
import { stepLabel } from '../headings/targets';
import { intakeThresholds } from '../thresholds';

/** A label of the step column, how often it stands there, and where first. */
export type LabelUse = { label: string; rows: number; examples: { row: number; text: string }[] };

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

/** The labels of the step column, by procedure. `null`: so many different ones that it is another column, which is said. */
export function* labelUses(
  rows: readonly RowFacts[],
  column: Column | undefined,
  ledger: Ledger,
): Work<Map<Procedure, Map<string, LabelUse>> | null> {
  const uses = new Map<Procedure, Map<string, LabelUse>>();
  const distinct = new Set<string>();
  yield* mapped(rows, ({ row, procedure }) => {
    const label = cellOf(row, column);
    const ofProcedure = uses.get(procedure) ?? new Map<string, LabelUse>();
    uses.set(procedure, ofProcedure);
    distinct.add(label);
    if (label === '' || distinct.size > intakeThresholds.mostLabels + 1) return;
    const use = ofProcedure.get(label) ?? { label, rows: 0, examples: [] };
    ofProcedure.set(label, use);
    use.rows += 1;
    if (use.examples.length < intakeThresholds.examples) use.examples.push({ row: row.row, text: briefly(label) });
  });
  distinct.delete('');
  if (distinct.size <= intakeThresholds.mostLabels) return uses;
  ledger.refuseCell(
    null,
    column?.heading ?? null,
    null,
    `There are ${distinct.size} different names under "${column?.heading ?? ''}"; at most ${intakeThresholds.mostLabels} are read. Choose the column that holds the step.`,
  );
  return null;
}

/** A label nobody knows is held against every name there is, letter by letter. */
const LABELS_A_SLICE = 10;

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
): Work<Map<string, LabelPlan>> {
  const match = labelMatcher(procedure, options.ours);
  const all = labelOptions(procedure);
  const understood = yield* mapped(uses, ({ label }) => match(label), LABELS_A_SLICE);
  const present = new Set(
    understood.flatMap(({ meanings }) =>
      meanings.flatMap((meaning) => (meaning.kind === 'step' ? [meaning.stepId] : [])),
    ),
  );
  let asked = 0;
  const planned = ({ label, rows, examples }: LabelUse): LabelPlan => {
    const { how, meanings } = match(label);
    const key = `label:${plainWords(label)}`;
    const base = { label, key, rows };
    const chosen = options.choices[key];
    const itself = options.ours || (options.chapters && procedure.steps.some((step) => step.label === label));
    const parts = itself ? null : partOfMerged(meanings, present, procedure);
    const doubtful = how === 'none' || how === 'unclear' || parts !== null;
    if (chosen !== undefined && !doubtful && all.some(({ value }) => value === chosen))
      return { ...base, how: 'chosen', meanings: chosen === 'leave' ? [] : [meaningOf(chosen)] };
    if (!doubtful) return { ...base, how: meanings.length > 1 ? 'position' : how, meanings };
    asked += 1;
    const question = { id: key, ...wording(label, how, meanings, parts, procedure), options: all, examples };
    const answer = asked > MOST_ASKED ? 'leave' : options.ask(question);
    return {
      ...base,
      how: answer === chosen ? 'chosen' : 'none',
      meanings: answer === 'leave' ? [] : [meaningOf(answer)],
    };
  };
  const plans = yield* mapped(uses, planned, LABELS_A_SLICE);
  return new Map(plans.map((plan) => [plan.label, plan]));
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

export const planValue = (plan: LabelPlan): string => plan.meanings.map(meaningValue).join(' ') || 'leave';
