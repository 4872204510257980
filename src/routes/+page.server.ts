import { fail, redirect } from '@sveltejs/kit';
import { eyeDrawing, eyeDrawings } from '$lib/charts/eye/eye-drawings.server';
import { openGoals, type StagedGoal } from '$lib/rooms/goals/goal-standing';
import { guidanceOf } from '$lib/rooms/choose/step-view';
import { textOf, wholeOf } from '$lib/rooms/forms/fields';
import { drillLogged, drillUndone } from '$lib/rooms/now/drill-log';
import { lastResult } from '$lib/rooms/now/last-result';
import { needsLook, nowView } from '$lib/rooms/now/now-view';
import { practiceMonth, recordingsOf } from '$lib/rooms/now/practice-month';
import { whatWaits } from '$lib/rooms/now/what-waits';
import { procedureOf, type SurgeonRecord } from '$lib/model';
import type { Audit } from '$lib/audit';
import { suggestionWords } from '$lib/words';
import { suggestionFor } from '$lib/assess/suggest';
import { attempt } from '$lib/server/attempt';
import { shownAudit } from '$lib/server/audits';
import { eventKindWords } from '$lib/rooms/forms/event-fields';
import { drillsFor, rehearsalAfterEvent } from '$lib/rules';
import { loadCautions, loadGuidance, loadRehearsals } from '$lib/server/content';
import { fieldsOf } from '$lib/server/form-fields';
import { INVENTED, inventedRecord, isInvented } from '$lib/server/invented';
import { readRecord } from '$lib/server/record';
import { reflectionDraft } from '$lib/server/reflections';
import { timingsUnderWay } from '$lib/server/timing-drafts';

import type { Actions, PageServerLoad } from './$types';

const lookOf = (audit: Audit, record: SurgeonRecord) => {
  const suggestion = suggestionFor(audit, record);
  return { enough: audit.enough, twoToWatch: audit.twoToWatch, suggestion, words: suggestionWords(audit, suggestion) };
};

export const load: PageServerLoad = async ({ locals }) => {
  const record = await readRecord(locals.store);
  const audit = needsLook(record)
    ? (await shownAudit(record, procedureOf(record, record.profile.procedureId))).audit
    : null;
  const cautions = loadCautions();
  const [goal] = openGoals(record);
  const checkpoints = goal?.goal.checkpoints ?? [];
  const offer = rehearsalAfterEvent(loadRehearsals(), record.cases, record.lists, record.profile.rehearsed ?? {});
  const view = nowView(record, audit && lookOf(audit, record));
  return {
    practice:
      view.state === 'window' ? practiceMonth(goal, record, goal ? guidanceOfGoal(goal) : null, locals.now) : null,
    rehearse: offer && {
      kind: eventKindWords(offer.kind, procedureOf(record, offer.procedureId)),
      title: offer.rehearsal.title,
      href: `/checkpoints/rehearsals/${offer.rehearsal.id}`,
    },
    view,
    waits: whatWaits(record, {
      note: (await reflectionDraft(locals.store, 'reflection-new')) !== null,
      timings: (await timingsUnderWay(locals.store)).map(({ draft }) => draft.code),
    }),
    last: lastResult(record),
    // Without a goal under way there is no window to look forward to.
    reminders: openGoals(record).some(({ stage }) => stage !== 'draft' && stage !== 'paused'),
    checkpoints: checkpoints.map(({ id, look }) => ({ id, look })),
    scenes: eyeDrawings(checkpoints.map(({ id }) => id)),
    eye: view.state === 'empty' ? eyeDrawing('rhexis-regrasp') : null,
    invented: INVENTED,
    people: cautions['no-patient-data'].paragraphs,
  };
};

const guidanceOfGoal = ({ procedure, goal }: StagedGoal) => guidanceOf(loadGuidance(), procedure, goal.stepId);

/** The goal and the drill that a form of the practice month names; `null` where the record or the library has no such. */
async function drillIn(store: App.Locals['store'], request: Request) {
  const fields = fieldsOf(await request.formData());
  const record = await readRecord(store);
  const staged = openGoals(record).find(({ goal }) => goal.id === textOf(fields, 'goal'));
  const drill =
    staged &&
    drillsFor(staged.goal, guidanceOfGoal(staged), recordingsOf(staged, record)).find(
      ({ id }) => id === textOf(fields, 'drill'),
    );
  return staged && drill ? { goalId: staged.goal.id, drillId: drill.id, fields } : null;
}

const noDrill = () => fail(400, { errors: [{ field: 'practice', message: 'This goal has no such drill.' }] });

export const actions = {
  drill: async ({ locals, request }) => {
    const found = await drillIn(locals.store, request);
    const seen = found && wholeOf(found.fields, 'seen');
    if (!found || typeof seen !== 'number') return noDrill();
    const { refused } = await attempt('practice', () =>
      locals.store.changeGoal(found.goalId, (goal) => drillLogged(goal, found.drillId, seen, locals.now)),
    );
    if (refused) return fail(409, { errors: [refused] });
    redirect(303, '/#practice');
  },
  undoDrill: async ({ locals, request }) => {
    const found = await drillIn(locals.store, request);
    if (!found) return noDrill();
    const { refused } = await attempt('practice', () =>
      locals.store.changeGoal(found.goalId, (goal) => drillUndone(goal, found.drillId, textOf(found.fields, 'at'))),
    );
    if (refused) return fail(409, { errors: [refused] });
    redirect(303, '/#practice');
  },
  lookRound: async ({ locals, request }) => {
    const surgeon = String((await request.formData()).get('surgeon') ?? '');
    if (!isInvented(surgeon))
      return fail(400, { errors: [{ field: 'surgeon', message: 'Choose one of the invented surgeons.' }] });
    const everything = await inventedRecord(surgeon);
    const { refused } = await attempt('surgeon', () => locals.store.loadInvented(everything));
    if (refused) return fail(409, { errors: [refused] });
    redirect(303, '/');
  },
} satisfies Actions;
