import { error, fail, redirect } from '@sveltejs/kit';
import { reviewedCase } from '$lib/rooms/forms/event-review';
import { decided } from '$lib/rooms/after-twenty/decisions';
import { textOf } from '$lib/rooms/forms/fields';
import { procedureOf } from '$lib/model';
import { readAfter, readGoalLines } from '$lib/server/after';
import { attempt } from '$lib/server/attempt';
import { fieldsOf } from '$lib/server/form-fields';
import { changeCases } from '$lib/server/last-change';
import { readRecord } from '$lib/server/record';
import { readLasted, readResult } from '$lib/server/results';
import { saidIn } from '$lib/server/said-in';
import { StaleVersionError } from '$lib/server/storage';
import type { Actions, PageServerLoad } from './$types';

const SAID: Record<string, string> = {
  read: 'The result is stored, and will be shown unchanged from now on.',
  lasted: 'Whether it lasted is stored with the result, and will be shown as it was read.',
  decided: 'The decision is stored with its date.',
  shown: 'The times are shown; that you asked is noted. The result still comes when the window is full.',
  reviewed: 'Your review of the event is stored.',
};

const goalOf = async (store: App.Locals['store'], id: string) => {
  const record = await readRecord(store);
  const goal = record.goals.find((each) => each.id === id);
  if (!goal) error(404, 'There is no goal at this address.');
  return { record, goal };
};

export const load: PageServerLoad = async ({ locals, params, url }) => {
  const { record, goal } = await goalOf(locals.store, params.goal);
  const view = await readAfter(record, goal);
  return {
    view,
    lines: await readGoalLines(record),
    said: saidIn(SAID, url),
  };
};

export const actions = {
  /** The result of a full window: stored once, and only when it is asked for. */
  read: async ({ locals, params }) => {
    const { record, goal } = await goalOf(locals.store, params.goal);
    const { done, refused } = await attempt('main', () => readResult(locals.store, record, goal, locals.now));
    if (refused) return fail(409, { errors: [refused] });
    redirect(303, `/after-twenty/${goal.id}${done ? '?said=read' : ''}`);
  },
  /** Whether it lasted: the answer of a complete following twenty, stored once, when it is asked for. */
  lasted: async ({ locals, params }) => {
    const { record, goal } = await goalOf(locals.store, params.goal);
    const { done, refused } = await attempt('main', () => readLasted(locals.store, record, goal, locals.now));
    if (refused) return fail(409, { errors: [refused] });
    redirect(303, `/after-twenty/${goal.id}${done ? '?said=lasted' : ''}`);
  },
  /** Asked for while the window runs; noted, because seeing times can change the cases that follow. */
  show: async ({ locals, params }) => {
    const { goal } = await goalOf(locals.store, params.goal);
    const { refused } = await attempt('main', () =>
      locals.store.changeGoal(goal.id, (stored) => ({ ...stored, timesShown: [...stored.timesShown, locals.now] })),
    );
    if (refused) return fail(409, { errors: [refused] });
    redirect(303, `/after-twenty/${goal.id}?said=shown`);
  },
  decide: async ({ locals, params, request }) => {
    const values = fieldsOf(await request.formData());
    const { record, goal } = await goalOf(locals.store, params.goal);
    const view = await readAfter(record, goal);
    const kind = view.decisions.offered.find(({ value }) => value === textOf(values, 'decision'))?.value;
    const reason = textOf(values, 'reason');
    const errors = [
      ...(kind ? [] : [{ field: 'decision', message: 'Choose what to do now.' }]),
      ...(reason === '' ? [{ field: 'reason', message: 'Write one line saying why: you will want it later.' }] : []),
    ];
    if (!kind || errors.length > 0) return fail(400, { errors, values });
    const { refused } = await attempt('decision', () =>
      locals.store.changeGoal(goal.id, (stored) => {
        const now = stored.decisions.length === goal.decisions.length && stored.state === goal.state;
        if (!now) throw new StaleVersionError('This goal');
        const procedure = procedureOf(record, goal.procedureId);
        return decided(stored, kind, reason, locals.now, { procedure, cases: record.cases });
      }),
    );
    if (refused) return fail(409, { errors: [refused], values });
    if (kind === 'change-checkpoints')
      redirect(303, `/plan?${new URLSearchParams({ step: goal.stepId, procedure: goal.procedureId })}`);
    redirect(303, `/after-twenty/${goal.id}?said=decided`);
  },
  review: async ({ locals, params, request }) => {
    const values = fieldsOf(await request.formData());
    const { record, goal } = await goalOf(locals.store, params.goal);
    const procedure = procedureOf(record, goal.procedureId);
    const read = reviewedCase(values, record.cases, procedure, locals.now, locals.persons?.none);
    if (read.kind === 'errors') return fail(400, { errors: read.errors, values });
    const { refused } = await attempt(read.field, () => changeCases(locals.store, [read], locals.now));
    if (refused) return fail(409, { errors: [refused], values });
    redirect(303, `/after-twenty/${goal.id}?said=reviewed`);
  },
} satisfies Actions;
