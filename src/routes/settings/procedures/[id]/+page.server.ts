import { error, fail, redirect } from '@sveltejs/kit';
import { asShipped } from '$lib/rooms/settings/procedures/as-shipped';
import { withoutFact } from '$lib/rooms/settings/procedures/fact-form';
import { errorsOf } from '$lib/rooms/settings/procedures/problems';
import { procedureView } from '$lib/rooms/settings/procedures/procedures-view';
import { moved, withoutStep, withStepBack } from '$lib/rooms/settings/procedures/steps';
import { namesText } from '$lib/rooms/settings/procedures/lines';
import { revisionOf, staleForm } from '$lib/server/revision';
import { nameFromForm } from '$lib/rooms/settings/procedures/words-form';
import { textOf, type Fields } from '$lib/rooms/forms/fields';
import type { Procedure } from '$lib/model';
import { attempt } from '$lib/server/attempt';
import { loadGuidance } from '$lib/server/content';
import {
  dropProcedure,
  keepProcedure,
  openProcedure,
  undoProcedure,
  type OpenProcedure,
} from '$lib/server/edit-procedure';
import { fieldsOf } from '$lib/server/form-fields';
import { saidIn } from '$lib/server/said-in';
import type { Actions, PageServerLoad, RequestEvent } from './$types';

const SAID: Record<string, string> = {
  made: 'The procedure is stored. Each step has an empty page for checkpoints of your own; files with these steps are read from now on.',
  stored: 'Stored.',
  moved: 'Moved.',
  retired: 'The step is retired: its timings stay, and it takes no new ones.',
  deleted: 'Deleted; nothing in the record rested on it.',
  again: 'The step is in use again.',
  asked: 'The fact is no longer asked; its answers stay.',
  back: 'The procedure is as shipped again.',
  undone: 'The last change was taken back.',
};
/** Said without a change to take back. */
const FINAL = ['made', 'undone'];

export const load: PageServerLoad = async ({ locals, params, url }) => {
  const open = await openProcedure(locals.store, params.id);
  if (!open) error(404, 'There is no such procedure in this record.');
  const said = saidIn(SAID, url);
  const pages = loadGuidance().filter(({ procedureId }) => procedureId === params.id);
  return {
    view: procedureView(open.procedure, open.record, open.shipped, new Set(pages.map(({ step }) => step))),
    seen: revisionOf(namesOf(open.procedure)),
    said,
    undo: said !== null && !FINAL.includes(url.searchParams.get('said') ?? ''),
  };
};

/** What the one form of this page that is typed into was filled from. */
const namesOf = ({ name, synonyms }: Procedure) => ({ name: [name], synonyms: [namesText(synonyms)] });

type Change = { procedure: Procedure; said: string; at?: string };

/** One change of the procedure at this address, checked and stored, and back to the page where it was made. */
async function changing(event: RequestEvent, change: (open: OpenProcedure, fields: Fields) => Change) {
  const open = await openProcedure(event.locals.store, event.params.id);
  if (!open) error(404, 'There is no such procedure in this record.');
  const values = fieldsOf(await event.request.formData());
  const named = namesOf(open.procedure);
  const { procedure, said, at } = change(open, values);
  const errors = errorsOf(procedure);
  if (errors.length > 0) return fail(400, { errors, values });
  const stale = staleForm('name', values, named, open.procedure.name);
  if (stale) return fail(409, { errors: [stale], values: { ...values, seen: [revisionOf(named)] } as Fields });
  const { refused } = await attempt('name', () => keepProcedure(event.locals.store, open.procedure, procedure));
  if (refused) return fail(409, { errors: [refused], values });
  redirect(303, `/settings/procedures/${event.params.id}?said=${said}${at ? `#${at}` : ''}`);
}

const upOrDown = (fields: Fields) => {
  const up = textOf(fields, 'up');
  return { id: up || textOf(fields, 'down'), by: up === '' ? ('down' as const) : ('up' as const) };
};

export const actions = {
  name: (event) =>
    changing(event, ({ procedure }, fields) => ({ procedure: nameFromForm(fields, procedure), said: 'stored' })),

  move: (event) =>
    changing(event, ({ procedure }, fields) => {
      const { id, by } = upOrDown(fields);
      const steps = moved(procedure.steps, id, by, ({ retired }) => retired);
      return { procedure: { ...procedure, steps }, said: 'moved', at: `step-${id}` };
    }),

  take: (event) =>
    changing(event, ({ procedure, use, shipped }, fields) => {
      const id = textOf(fields, 'step');
      const after = withoutStep(procedure, id, use, shipped);
      const stays = after.steps.some((step) => step.id === id);
      return { procedure: after, said: stays ? 'retired' : 'deleted', at: stays ? 'retired' : 'steps' };
    }),

  again: (event) =>
    changing(event, ({ procedure }, fields) => {
      const id = textOf(fields, 'step');
      return { procedure: withStepBack(procedure, id), said: 'again', at: `step-${id}` };
    }),

  moveFact: (event) =>
    changing(event, ({ procedure }, fields) => {
      const { id, by } = upOrDown(fields);
      return { procedure: { ...procedure, facts: moved(procedure.facts, id, by) }, said: 'moved', at: `fact-${id}` };
    }),

  takeFact: (event) =>
    changing(event, ({ procedure, use }, fields) => {
      const id = textOf(fields, 'fact');
      const after = withoutFact(procedure, id, use);
      return { procedure: after, said: after.facts.some((fact) => fact.id === id) ? 'asked' : 'deleted', at: 'facts' };
    }),

  putBack: (event) =>
    changing(event, ({ procedure, shipped, use }) => ({
      procedure: shipped ? asShipped(procedure, shipped, use) : procedure,
      said: 'back',
    })),

  undo: async ({ locals, params }) => {
    if (!(await undoProcedure(locals.store, params.id)))
      return fail(409, { errors: [{ field: 'undo', message: 'The change is no longer kept.' }], values: {} });
    redirect(303, `/settings/procedures/${params.id}?said=undone`);
  },

  remove: async ({ locals, params }) => {
    const open = await openProcedure(locals.store, params.id);
    if (!open) error(404, 'There is no such procedure in this record.');
    const { removal } = procedureView(open.procedure, open.record, open.shipped, new Set());
    if (!removal?.able)
      return fail(409, {
        errors: [{ field: 'remove', message: removal?.why ?? 'A shipped procedure stays.' }],
        values: {},
      });
    const { refused } = await attempt('remove', () => dropProcedure(locals.store, open.procedure));
    if (refused) return fail(409, { errors: [refused], values: {} });
    redirect(303, `/settings/procedures?said=removed&id=${params.id}`);
  },
} satisfies Actions;
