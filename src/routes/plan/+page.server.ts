import { error, fail, redirect } from '@sveltejs/kit';
import { eyeDrawings } from '$lib/charts/eye/eye-drawings.server';
import { textOf } from '$lib/rooms/forms/fields';
import { newGoal } from '$lib/rooms/plan/new-goal';
import { readPlan } from '$lib/rooms/plan/plan-form';
import { offeredCheckpoints, planView } from '$lib/rooms/plan/plan-view';
import { procedureOf } from '$lib/model';
import { attempt } from '$lib/server/attempt';
import { loadCautions } from '$lib/server/content';
import { fieldsOf } from '$lib/server/form-fields';
import { dropOwnReason, keepOwnReason, readPlanSource, startOf } from '$lib/server/plans';
import { readRecord } from '$lib/server/record';
import { cannotStartWords } from '$lib/words';
import type { Actions, PageServerLoad } from './$types';

const texts = () => {
  const cautions = loadCautions();
  return {
    supervision: cautions.supervision.paragraphs,
    noTimes: cautions['note-durations'].paragraphs,
    note: cautions['note-for-the-list'].paragraphs,
    rupture: cautions['capsule-rupture'].paragraphs,
  };
};

/** What was asked for stands in the address, so that a form that comes back is about the same step. */
const askedOf = ({ searchParams }: URL) => ({
  step: searchParams.get('step'),
  procedure: searchParams.get('procedure') || null,
  view: searchParams.get('view') || null,
  own: searchParams.get('why') === 'own',
  eyes: searchParams.get('eyes') || null,
});

export const load: PageServerLoad = async ({ locals, url }) => {
  const { step, procedure, view, own, eyes } = askedOf(url);
  if (step === null) {
    const record = await readRecord(locals.store);
    const { id, steps } = procedureOf(record, procedure ?? record.profile.procedureId);
    return {
      room: null,
      scenes: {},
      procedure: id,
      steps: steps
        .filter((each) => !each.retired && !each.notToShorten)
        .map((each) => ({ id: each.id, label: each.label })),
      label: null,
      asked: null,
      texts: texts(),
    };
  }
  const { label, retired, noSuchEyes, source } = await readPlanSource(locals.store, {
    step,
    procedure,
    view,
    own,
    eyes,
  });
  if (label === null) error(404, 'This procedure has no step of this name.');
  if (retired)
    error(404, `${label} is retired: it is no longer asked for, so no goal can be set on it. Settings brings it back.`);
  if (noSuchEyes) error(404, 'This procedure has no such fact of the eye, so no goal can be aimed at it.');
  const room = source && planView(source);
  return {
    room,
    scenes: eyeDrawings(room?.checkpoints.map(({ id }) => id) ?? [], { small: true }),
    procedure,
    steps: [],
    label,
    asked: `${new URLSearchParams({ step, ...(procedure && { procedure }), ...(view && { view }), ...(own && { why: 'own' }), ...(eyes && { eyes }) })}`,
    texts: texts(),
  };
};

export const actions = {
  /** A step for a reason from outside the record, before the views are opened. */
  own: async ({ locals, request }) => {
    const values = fieldsOf(await request.formData());
    const [step, reason, procedure] = [textOf(values, 'step'), textOf(values, 'reason'), textOf(values, 'procedure')];
    const errors = [
      ...(step === '' ? [{ field: 'step', message: 'Choose the step.' }] : []),
      ...(reason === '' ? [{ field: 'reason', message: 'Write the reason from outside the record.' }] : []),
      ...(textOf(values, 'before') !== 'yes'
        ? [
            {
              field: 'before',
              message: 'This applies only if you had not looked at Choose for it. Otherwise choose there.',
            },
          ]
        : []),
    ];
    errors.push(...(locals.persons?.errorsIn(['reason'], 'note') ?? []));
    if (errors.length > 0) return fail(400, { errors, values });
    await keepOwnReason(locals.store, { procedure, step, reason });
    redirect(303, `/plan?${new URLSearchParams({ step, procedure, why: 'own' })}`);
  },
  set: async ({ locals, request, url }) => {
    const values = fieldsOf(await request.formData());
    const asked = askedOf(url);
    const { record, source } = await readPlanSource(locals.store, { ...asked, step: asked.step ?? '' });
    if (!source) error(404, 'This step no longer has a time in the record.');
    const read = readPlan(values, {
      step: source.step,
      offered: offeredCheckpoints(source),
      measures: source.draft.measures,
      cannotMeasure: source.started.kind === 'cannot' ? cannotStartWords(source.started.why) : null,
      supervisorAsked: source.supervisor !== null,
      chosenBy: source.chosenBy,
      none: locals.persons?.none,
    });
    if (read.kind === 'errors') return fail(400, { errors: read.errors, values });
    const started = await startOf(record, source, read.plan.measure, read.plan.windowLength);
    if (started.kind === 'cannot')
      return fail(400, { errors: [{ field: 'measure', message: cannotStartWords(started.why) }], values });
    const goal = newGoal(source, read.plan, started.baseline, record.cases, locals.now);
    const { done, refused } = await attempt('step', () => locals.store.startGoal(goal));
    if (!done) return fail(409, { errors: [refused], values });
    await dropOwnReason(locals.store);
    redirect(303, `/plan/${done.id}?said=set`);
  },
} satisfies Actions;
