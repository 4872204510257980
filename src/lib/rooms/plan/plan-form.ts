import { measures, type Goal, type GoalCheckpoint, type Measure, type Step } from '../../model';
import { personIn } from '../../persons';
import { asksWho, durationIn } from '../../words';
import { textOf, textsOf, type FieldError, type Fields } from '../forms/fields';

export type PlanChoices = {
  checkpoints: GoalCheckpoint[];
  measure: Measure;
  watch: string[];
  windowLength: 20 | 40;
  ifThen: string | null;
  agreed: Goal['agreed'];
  reason: string | null;
};

export type PlanRules = {
  step: Pick<Step, 'label' | 'protectedParts'>;
  /** Checkpoints that can be ticked. */
  offered: readonly { id: string; look: string }[];
  /** Measures the rules allow for this step. */
  measures: readonly Measure[];
  /** Why time and steadiness cannot be measured; `null` when they can. */
  cannotMeasure: string | null;
  supervisorAsked: boolean;
  chosenBy: Goal['chosenBy'];
  /** What was said to be no person earlier. */
  none?: readonly string[];
};

/** A line of the note: more cannot be kept in mind. */
const LONGEST = 200;
const MOST_CHECKPOINTS = 3;
const NO_TIMES = 'The mind in theatre belongs to the eye, not to the clock.';

/** Reads the plan form; every refusal names its field and why. Nothing is half-taken. */
export function readPlan(
  fields: Fields,
  rules: PlanRules,
): { kind: 'plan'; plan: PlanChoices } | { kind: 'errors'; errors: FieldError[] } {
  const errors: FieldError[] = [];
  const refuse = (field: string, message: string) => errors.push({ field, message });

  const own = textOf(fields, 'own');
  const ticked = textsOf(fields, 'checkpoint').flatMap((id) => rules.offered.filter((each) => each.id === id));
  const checkpoints = [
    ...ticked.map(({ id, look }) => ({ id, look })),
    ...(own ? [{ id: 'own-of-this-goal', look: own }] : []),
  ];
  if (checkpoints.length > MOST_CHECKPOINTS)
    refuse(
      'checkpoints',
      `Choose at most three checkpoints; ${checkpoints.length} are chosen. More than three cannot be kept in mind.`,
    );
  if (checkpoints.length === 0) refuse('checkpoints', 'Choose at least one checkpoint, or write your own.');

  const measure = measures.find((each) => each === textOf(fields, 'measure') && rules.measures.includes(each));
  if (!measure) refuse('measure', 'Choose what is measured.');
  const timed = measure === 'time' || measure === 'steadiness';
  if (timed && rules.cannotMeasure) refuse('measure', rules.cannotMeasure);

  const watch = textsOf(fields, 'watch').filter((id) => rules.step.protectedParts.some((each) => each.id === id));
  if (timed && rules.step.protectedParts.length > 0 && watch.length === 0)
    refuse('watch', `${rules.step.label} has parts that are never shortened: choose at least one of them to watch.`);

  const window = textOf(fields, 'window');
  if (window !== '20' && window !== '40') refuse('window', 'Choose twenty or forty cases.');

  const ifThen = textOf(fields, 'ifThen');
  for (const [field, text] of [
    ['own', own],
    ['ifThen', ifThen],
  ] as const) {
    const duration = durationIn(text);
    if (duration) refuse(field, `"${duration}" is a time, and the note for the list holds none. ${NO_TIMES}`);
    if (text.length > LONGEST) refuse(field, `Keep this under ${LONGEST} characters: it has to fit on the note.`);
  }
  const reason = textOf(fields, 'reason');
  if (rules.chosenBy === 'own' && reason === '')
    refuse('reason', 'Write the reason from outside the record, or choose the step from the record.');

  const agreed = agreement(fields, rules.supervisorAsked, refuse);
  if (textOf(fields, 'nobody') !== 'yes')
    for (const [field, text] of [
      ['own', own],
      ['ifThen', ifThen],
      ['reason', reason],
      ['why', agreed?.why ?? ''],
    ] as const) {
      const found = personIn(text, 'note', rules.none);
      if (found.length > 0) refuse(field, asksWho(found));
    }

  if (errors.length > 0 || !measure || !agreed) return { kind: 'errors', errors };
  return {
    kind: 'plan',
    plan: {
      checkpoints,
      measure,
      watch,
      windowLength: window === '40' ? 40 : 20,
      ifThen: ifThen || null,
      agreed,
      reason: reason || null,
    },
  };
}

function agreement(
  fields: Fields,
  asked: boolean,
  refuse: (field: string, message: string) => void,
): Goal['agreed'] | null {
  if (!asked) return { answer: 'none', why: null };
  const answer = (['yes', 'not-yet', 'none'] as const).find((each) => each === textOf(fields, 'agreed'));
  const why = textOf(fields, 'why');
  if (!answer) {
    refuse('agreed', 'Say whether this is agreed with your supervisor.');
    return null;
  }
  if (answer === 'none' && why === '') {
    refuse('why', 'Say why there is no supervisor.');
    return null;
  }
  return { answer, why: answer === 'none' ? why : null };
}
