import { error, fail, redirect } from '@sveltejs/kit';
import { pairOf } from '$lib/audit/pair';
import { procedureOf, type Goal, type SurgeonRecord } from '$lib/model';
import { momentTimes } from '$lib/recording';
import { whereWords } from '$lib/rooms/choose/pair-view';
import { openGoals } from '$lib/rooms/goals/goal-standing';
import { resultKnown } from '$lib/rooms/reflect/reflect-view';
import { certainEyesOf } from '$lib/rules';
import { shownAudit } from '$lib/server/audits';
import { attempt } from '$lib/server/attempt';
import { loadCautions } from '$lib/server/content';
import { markMoment, momentsIn, momentsOf, nameMoments } from '$lib/server/moments';
import { readRecord } from '$lib/server/record';
import { pairCannotWords, pairCaveatWords, pairReasonsWords } from '$lib/words/pair';
import { recordingSays, recordingTroubles } from '$lib/words/recording';
import type { Actions, PageServerLoad } from './$types';

const goalOn = (record: SurgeonRecord, procedureId: string, stepId: string): Goal | null =>
  openGoals(record).find(
    ({ goal, stage }) => stage !== 'draft' && goal.procedureId === procedureId && goal.stepId === stepId,
  )?.goal ?? null;

export const load: PageServerLoad = async ({ locals, params, url }) => {
  const { store } = locals;
  const record = await readRecord(store);
  const asked = url.searchParams.get('procedure');
  const procedure = procedureOf(record, asked ?? record.profile.procedureId);
  const step = procedure.steps.find(({ id }) => id === params.step);
  if (!step) error(404, 'The procedure has no step of this name.');
  const { audit, cases } = await shownAudit(record, procedure);
  // The eyes of an aimed goal, else those in which the step takes longer.
  const aimed = goalOn(record, procedure.id, step.id)?.eyes;
  const within = aimed
    ? { factId: aimed.fact, levels: [aimed.level] }
    : certainEyesOf({ ...audit, patterns: audit.patterns.filter(({ stepId }) => stepId === step.id) });
  const nth = Math.min(50, Math.max(0, Math.trunc(Number(url.searchParams.get('another') ?? 0)) || 0));
  const pair = pairOf({ cases, lists: record.lists, procedure, stepId: step.id, within, skip: nth });
  const moments = await momentsOf(store, procedure.id, step.id);
  const cautions = loadCautions();
  const sides =
    pair.kind === 'cannot'
      ? []
      : await Promise.all(
          [pair.shorter, pair.longer].map(async ({ caseId, code, stretches, why, uneventful }, at) => ({
            caseId,
            code,
            title: at === 1 ? 'Longer' : uneventful ? 'Shorter, uneventful' : 'Shorter',
            because: pairReasonsWords(why),
            stretches,
            where: whereWords(stretches),
            recording: cases.find(({ id }) => id === caseId)?.recording ?? null,
            times: momentTimes(stretches, await momentsIn(store, caseId, step.id)),
          })),
        );
  const query = new URLSearchParams({ ...(asked ? { procedure: asked } : {}), another: String(nth + 1) });
  return {
    step: { id: step.id, label: step.label },
    procedureId: procedure.id,
    consent: record.profile.recordingsConsentAt !== null,
    because: pair.kind === 'cannot' ? pairCannotWords(pair.why) : null,
    sides,
    alike: pair.kind === 'cannot' ? [] : pair.same,
    different: pair.kind === 'cannot' ? [] : pair.different,
    said: pair.kind === 'cannot' ? [] : pair.caveats.map(pairCaveatWords),
    moments,
    another: `?${query}`,
    first: nth > 0,
    stored: url.searchParams.get('said') === 'note',
    texts: {
      note: cautions.reflection.paragraphs,
      consent: cautions['recording-consent'].paragraphs,
      reference: cautions['reference-consent'].paragraphs,
      says: recordingSays,
      troubles: recordingTroubles,
    },
  };
};

export const actions = {
  note: async ({ locals, request, params }) => {
    const form = await request.formData();
    const saw = String(form.get('saw') ?? '').trim();
    const refuse = (message: string, status = 400) =>
      fail(status, { errors: [{ field: 'saw', message }], values: { saw: [saw] } });
    if (saw === '') return refuse('There is nothing to keep yet: write a line.');
    if (saw.length > 20_000) return refuse('Keep this text under 20000 characters.');
    const record = await readRecord(locals.store);
    const ids = form.getAll('case').map(String);
    const cases = record.cases.filter(({ id }) => ids.includes(id));
    if (cases.length === 0 || cases.length < ids.length)
      return refuse('One of these two cases is no longer in the record.', 409);
    const goal = goalOn(record, cases[0]?.procedureId ?? '', params.step);
    const codes = cases.map(({ code }) => code).join(' and ');
    const { refused } = await attempt('saw', () =>
      locals.store.saveReflection({
        at: locals.now,
        caseIds: cases.map(({ id }) => id),
        goalId: goal?.id ?? null,
        stepId: params.step,
        answers: [],
        // The pair is chosen by its times, and says which of the two took longer.
        beforeLengths: false,
        ...(resultKnown(record, goal, ids) ? { resultKnown: true as const } : {}),
        protectedSeen: [],
        saw: `Two recordings, ${codes}: ${saw}`,
        willTry: '',
        tags: [],
        history: [],
        invented: cases.every(({ invented }) => invented),
      }),
    );
    if (refused) return fail(409, { errors: [refused], values: { saw: [saw] } });
    redirect(303, '?said=note');
  },

  moment: async ({ locals, request, params }) => {
    const form = await request.formData();
    const at = Number(form.get('at') || 'none');
    const caseId = String(form.get('case') ?? '');
    const moment = String(form.get('moment') ?? '');
    if (
      !Number.isFinite(at) ||
      at < 0 ||
      (await locals.store.caseById(caseId)) === null ||
      !/^[a-z0-9-]{1,40}$/.test(moment)
    )
      return fail(400, { errors: [{ field: 'moments', message: 'This is no place in a recording of the record.' }] });
    await markMoment(locals.store, { caseId, stepId: params.step, moment, at });
    return {};
  },

  names: async ({ locals, request, params }) => {
    const form = await request.formData();
    await nameMoments(locals.store, String(form.get('procedure') ?? ''), params.step, form.getAll('name').map(String));
    return {};
  },
} satisfies Actions;
