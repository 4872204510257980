import { fail, redirect } from '@sveltejs/kit';
import { eyeDrawings } from '$lib/charts/eye/eye-drawings.server';
import { openGoals } from '$lib/rooms/goals/goal-standing';
import { needsLook, nowView } from '$lib/rooms/now/now-view';
import { procedureOf, type SurgeonRecord } from '$lib/model';
import type { Audit } from '$lib/audit';
import { suggestionWords } from '$lib/words';
import { suggestionFor } from '$lib/assess/suggest';
import { attempt } from '$lib/server/attempt';
import { shownAudit } from '$lib/server/audits';
import { eventKindWords } from '$lib/rooms/forms/event-fields';
import { rehearsalAfterEvent } from '$lib/rules';
import { loadCautions, loadRehearsals } from '$lib/server/content';
import { INVENTED, inventedRecord, isInvented } from '$lib/server/invented';
import { readRecord } from '$lib/server/record';

import type { Actions, PageServerLoad } from './$types';

const lookOf = (audit: Audit, record: SurgeonRecord) => {
  const suggestion = suggestionFor(audit, record);
  return { enough: audit.enough, suggestion, words: suggestionWords(audit, suggestion) };
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
  return {
    rehearse: offer && {
      kind: eventKindWords(offer.kind, procedureOf(record, offer.procedureId)),
      title: offer.rehearsal.title,
      href: `/checkpoints/rehearsals/${offer.rehearsal.id}`,
    },
    view: nowView(record, audit && lookOf(audit, record)),
    // Without a goal under way there is no window to look forward to.
    reminders: openGoals(record).some(({ stage }) => stage !== 'draft' && stage !== 'paused'),
    checkpoints: checkpoints.map(({ id, look }) => ({ id, look })),
    scenes: eyeDrawings(checkpoints.map(({ id }) => id)),
    invented: INVENTED,
    people: cautions['no-patient-data'].paragraphs,
  };
};

export const actions = {
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
