import type { Goal, Procedure, Step } from '../../../model';
import { textOf, textsOf, type FieldError, type Fields } from '../../forms/fields';
import { namesFrom, namesText } from './lines';
import { slugFrom } from './slug-from';
import { withStep } from './steps';
import type { ProcedureUse } from './use';

/** Empty lines for protected parts offered at first. */
const BLANK_PARTS = 2;
const MORE_PARTS = 3;

/** The form of one step, ready to print; `values` holds its texts by field name. */
export type StepForm = {
  id: string | null;
  values: Record<string, string[]>;
  /** Steps that may be named as making this one longer: those before it, nearest first. */
  earlier: readonly { value: string; label: string }[];
  parts: readonly { id: string; label: string; recorded: number; removable: boolean }[];
  blanks: number;
  /** Where a new step goes; `null` for one that has its place. */
  places: readonly { value: string; label: string }[] | null;
  mergeOf: string | null;
  /** Shipped as not to be shortened: that is not for a form to lift. */
  fixedNotToShorten: boolean;
};

const emptyStep: Step = {
  id: '',
  label: '',
  starts: '',
  ends: '',
  synonyms: [],
  earlier: [],
  optional: false,
  notToShorten: false,
  protectedParts: [],
  retired: false,
};

const shippedStep = (shipped: Procedure | null, id: string) => shipped?.steps.find((step) => step.id === id) ?? null;

/** @param sent what was typed so far, when the form comes back with an error or with more lines */
export function stepForm(
  procedure: Procedure,
  stepId: string | null,
  use: ProcedureUse,
  shipped: Procedure | null,
  sent: Fields = {},
): StepForm {
  const step = procedure.steps.find(({ id }) => id === stepId) ?? emptyStep;
  const at = procedure.steps.findIndex(({ id }) => id === stepId);
  const before = at < 0 ? procedure.steps : procedure.steps.slice(0, at);
  const live = procedure.steps.filter(({ retired }) => !retired);
  const asShipped = shippedStep(shipped, step.id);
  const labelOf = (id: string) => procedure.steps.find((other) => other.id === id)?.label ?? id;
  return {
    id: stepId,
    values: {
      label: [step.label],
      starts: [step.starts],
      ends: [step.ends],
      synonyms: [namesText(step.synonyms)],
      earlier: step.earlier,
      optional: step.optional ? ['yes'] : [],
      notToShorten: step.notToShorten ? ['yes'] : [],
      after: [live.at(-1)?.id ?? ''],
      ...Object.fromEntries(step.protectedParts.map(({ id, label }) => [`part-${id}`, [label]])),
    },
    earlier: [
      ...before.filter(({ retired }) => !retired).reverse(),
      ...procedure.steps.filter(({ id }) => step.earlier.includes(id) && !before.some((one) => one.id === id)),
    ].map(({ id, label }) => ({ value: id, label })),
    parts: step.protectedParts.map(({ id, label }) => ({
      id,
      label,
      recorded: use.protectedParts.get(id) ?? 0,
      removable: !use.protectedParts.has(id) && !asShipped?.protectedParts.some((part) => part.id === id),
    })),
    blanks: Math.max(BLANK_PARTS, (sent.newPart?.length ?? 0) + ('more' in sent ? MORE_PARTS : 0)),
    places: stepId === null ? [{ value: '', label: 'first of all' }, ...afterWords(live)] : null,
    mergeOf: step.mergeOf ? step.mergeOf.map(labelOf).join(' and ') : null,
    fixedNotToShorten: asShipped?.notToShorten ?? false,
  };
}

const afterWords = (steps: readonly Step[]) => steps.map(({ id, label }) => ({ value: id, label: `after ${label}` }));

/**
 * The procedure with the step as typed. Nothing is deleted here but a protected part nothing rests on.
 *
 * @param goals those of this procedure: a step under a goal on time is not made one that is not to be shortened
 */
export function stepFromForm(
  fields: Fields,
  procedure: Procedure,
  stepId: string | null,
  { use, shipped, goals }: { use: ProcedureUse; shipped: Procedure | null; goals: readonly Goal[] },
): { procedure: Procedure; stepId: string; errors: FieldError[] } {
  const before = procedure.steps.find(({ id }) => id === stepId) ?? emptyStep;
  const asShipped = shippedStep(shipped, before.id);
  const label = textOf(fields, 'label');
  const id =
    stepId ??
    slugFrom(
      label,
      procedure.steps.map((step) => step.id),
      'step',
    );
  const known = new Set(procedure.steps.map((step) => step.id));
  const notToShorten = textOf(fields, 'notToShorten') === 'yes' || (asShipped?.notToShorten ?? false);
  const errors: FieldError[] = [];
  const timed = goals.some(
    (goal) => goal.stepId === id && goal.state !== 'closed' && ['time', 'steadiness'].includes(goal.measure),
  );
  if (notToShorten && !before.notToShorten && timed)
    errors.push({
      field: 'notToShorten',
      message: 'Not to be shortened: a goal on its time is open. Close that goal first.',
    });
  const step: Step = {
    ...before,
    id,
    label,
    starts: textOf(fields, 'starts'),
    ends: textOf(fields, 'ends'),
    synonyms: namesFrom(textOf(fields, 'synonyms')),
    earlier: inOldOrder(
      textsOf(fields, 'earlier').filter((other) => other !== id && known.has(other)),
      before.earlier,
    ),
    optional: textOf(fields, 'optional') === 'yes',
    notToShorten,
    protectedParts: partsFrom(fields, before, procedure, use, asShipped),
  };
  const after = textOf(fields, 'after');
  return { procedure: withStep(procedure, step, after === '' ? null : after), stepId: id, errors };
}

/** A form sends its ticks in its own order; what was ticked before keeps its place. */
const inOldOrder = (ticked: readonly string[], before: readonly string[]): string[] => [
  ...before.filter((id) => ticked.includes(id)),
  ...ticked.filter((id) => !before.includes(id)),
];

/** Protected parts as typed. Their ids name what was seen in a case, so an id stands once in the whole procedure. */
function partsFrom(
  fields: Fields,
  before: Step,
  procedure: Procedure,
  use: ProcedureUse,
  shipped: Step | null,
): Step['protectedParts'] {
  const gone = new Set(textsOf(fields, 'partGone'));
  const stays = (id: string) =>
    !gone.has(id) || use.protectedParts.has(id) || (shipped?.protectedParts.some((part) => part.id === id) ?? false);
  const kept = before.protectedParts
    .filter(({ id }) => stays(id))
    .map(({ id }) => ({ id, label: textOf(fields, `part-${id}`) }));
  const taken = new Set([
    ...procedure.steps.flatMap((step) => step.protectedParts.map(({ id }) => id)),
    ...use.protectedParts.keys(),
  ]);
  for (const label of textsOf(fields, 'newPart')) {
    const id = slugFrom(label, taken, 'kept');
    taken.add(id);
    kept.push({ id, label });
  }
  return kept;
}
