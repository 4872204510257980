import { fail, redirect } from '@sveltejs/kit';
import { counted } from '$lib/format';
import { procedureOf } from '$lib/model';
import { readTimingDraft, type TimingDraft } from '$lib/recording';
import { draftFields, draftKey } from '$lib/rooms/cases/new-case-view';
import { canBeTimedAgain, caseOfAgain, timedAgain } from '$lib/rooms/cases/timed-again';
import { timedCase } from '$lib/rooms/cases/timed-case';
import { goalTimedFor, timingView, type TimingView } from '$lib/rooms/cases/timing-view';
import { typedFacts } from '$lib/rooms/cases/typed-case';
import { textOf } from '$lib/rooms/forms/fields';
import { hiddenCaseIds } from '$lib/rooms/goals/hidden-times';
import { attempt } from '$lib/server/attempt';
import { loadCautions } from '$lib/server/content';
import { readRecord } from '$lib/server/record';
import { keptTiming, timingKey, timingsUnderWay } from '$lib/server/timing-drafts';
import { recordTyped } from '$lib/server/typed-case';
import { recordingSays, recordingTroubles } from '$lib/words/recording';
import type { Actions, PageServerLoad } from './$types';

export const load: PageServerLoad = async ({ locals, url }) => {
  const { store } = locals;
  const record = await readRecord(store);
  const code = url.searchParams.get('code');
  const consent = record.profile.recordingsConsentAt !== null;
  const draft = code === null || !consent ? null : draftFields(await store.draft(draftKey(code)));
  const cautions = loadCautions();
  const texts = {
    consent: cautions['recording-consent'].paragraphs,
    name: cautions['recording-file-name'].paragraphs,
    sound: cautions['sound-and-picture'].paragraphs,
  };
  const again = code === null || !consent ? null : caseOfAgain(code);
  const one = record.cases.find(({ id }) => id === again);
  if (code !== null && one && canBeTimedAgain(one, hiddenCaseIds(record))) {
    const procedure = procedureOf(record, one.procedureId);
    return {
      begin: null,
      timing: await timingOf(timingView(record, procedure, { code, facts: one.facts }, one.code)),
      texts,
    };
  }
  if (code === null || !draft) {
    const underWay = (await timingsUnderWay(store)).map(({ draft: each }) => {
      const twice = record.cases.find(({ id }) => id === caseOfAgain(each.code));
      return { code: each.code, words: twice ? `${twice.code}, once more` : each.code };
    });
    return { begin: { consent, underWay, gone: code !== null && consent, code }, timing: null, texts };
  }
  const procedure = procedureOf(record, textOf(draft, 'procedure'));
  return {
    begin: null,
    timing: await timingOf(
      timingView(record, procedure, typedFacts(draft, procedure, record.cases, record.lists).typed),
    ),
    texts,
  };

  async function timingOf(view: TimingView) {
    const kept = await keptTiming(store, view.code);
    return {
      view,
      draft: kept?.draft ?? null,
      revision: kept?.revision ?? 0,
      says: recordingSays,
      troubles: recordingTroubles,
    };
  }
};

export const actions = {
  consent: async ({ locals, url }) => {
    await locals.store.changeProfile((stored) => ({ ...stored, recordingsConsentAt: locals.now }));
    redirect(
      303,
      `/cases/time${url.searchParams.has('code') ? `?code=${encodeURIComponent(url.searchParams.get('code') ?? '')}` : ''}`,
    );
  },

  save: async ({ locals, request, url }) => {
    const { store } = locals;
    const code = url.searchParams.get('code') ?? '';
    const form = await request.formData();
    const draft = readTimingDraft(String(form.get('draft') ?? ''));
    const first = draftFields(await store.draft(draftKey(code)));
    const twice = caseOfAgain(code);
    const refuse = (status: number, message: string) => fail(status, { errors: [{ field: 'steps', message }] });
    if (twice !== null && draft?.code === code) return saveAgain(twice, draft);
    if (!first)
      return refuse(
        409,
        'The facts of this case are no longer there: it was stored already, or given up in another tab.',
      );
    if (draft?.code !== code) return refuse(400, 'The marks did not arrive whole. They are kept; press once more.');
    const record = await readRecord(store);
    const procedure = procedureOf(record, textOf(first, 'procedure'));
    const { typed, errors: before } = typedFacts(first, procedure, record.cases, record.lists);
    const { timed, errors } = timedCase(draft, typed, procedure);
    if (before.length + errors.length > 0) return fail(400, { errors: [...before, ...errors] });

    const label = String(form.get('label') ?? '').trim();
    if (label.length > 60) return fail(400, { errors: [{ field: 'label', message: 'Label: at most 60 characters.' }] });
    const recording = timed.recording && { ...timed.recording, label: label === '' ? null : label };
    const { done, refused } = await attempt('steps', () =>
      recordTyped(store, { procedure, ...timed, recording, source: { kind: 'timed' } }),
    );
    if (refused) return fail(409, { errors: [refused] });
    const [stored] = done.cases;
    const goal = goalTimedFor(record, procedure);
    if (goal && stored) await keepAnswers(goal, stored.id);
    await store.dropDraft(timingKey(code));
    await store.dropDraft(draftKey(code));
    redirect(303, stored ? `/cases/${stored.id}?said=timed` : '/cases?said=added');

    /** A second timing stands beside the first one, which stays. */
    async function saveAgain(caseId: string, second: TimingDraft) {
      const now = await readRecord(store);
      const one = now.cases.find(({ id }) => id === caseId);
      if (!one || !canBeTimedAgain(one, hiddenCaseIds(now)))
        return refuse(409, 'This case can no longer be timed again: it is gone, hidden, or kept as it is.');
      const { changed, steps, errors } = timedAgain(second, one, procedureOf(now, one.procedureId), locals.now);
      if (errors.length > 0) return fail(400, { errors });
      const what = `Timed again, the first marks hidden: ${counted(steps, 'step')}`;
      const { refused } = await attempt('steps', () => store.updateCase(changed, what, locals.now));
      if (refused) return fail(409, { errors: [refused] });
      await store.dropDraft(timingKey(code));
      redirect(303, `/cases/${caseId}?said=timed-again#times`);
    }

    /** Answers of the pass are a note of their own, given before a length was shown. */
    async function keepAnswers({ id, stepId, checkpoints }: NonNullable<typeof goal>, caseId: string): Promise<void> {
      const answers = checkpoints.flatMap(({ id: checkpointId }) => {
        const answer = timed.answers[checkpointId];
        return answer ? [{ caseId, checkpointId, answer }] : [];
      });
      if (answers.length === 0) return;
      await store.saveReflection({
        at: locals.now,
        caseIds: [caseId],
        goalId: id,
        stepId,
        answers,
        beforeLengths: true,
        protectedSeen: [],
        saw: '',
        willTry: '',
        tags: [],
        history: [],
        invented: false,
      });
    }
  },
} satisfies Actions;
