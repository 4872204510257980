import { chooseView, viewOf } from '$lib/assessment/choose-view';
import { procedureOf } from '$lib/assessment/record';
import { shownAudit } from '$lib/server/audits';
import { loadCautions } from '$lib/server/content';
import { keptAnswers, recordKey } from '$lib/server/kept-answers';
import { readRecord } from '$lib/server/record';
import { suggestionFor } from '$lib/assessment/suggest';
import type { Suggestion } from '$lib/rules/types';
import type { PageServerLoad } from './$types';

// The safety monitor behind a suggestion takes longer than the rest of the page; nothing of it changes with the view.
const suggestions = keptAnswers<Suggestion>(2);

export const load: PageServerLoad = async ({ locals, url }) => {
  const record = await readRecord(locals.store);
  const procedure = procedureOf(record, url.searchParams.get('procedure') ?? record.profile.procedureId);
  const timed = new Set(record.cases.map((each) => each.procedureId));
  const caution = loadCautions().standing.paragraphs;
  const others = record.procedures.filter(({ id }) => id !== procedure.id && timed.has(id));
  const common = {
    caution,
    procedure: procedure.name,
    others: others.map(({ id, name }) => ({ id, name })),
  };
  const { audit, heldBack } = await shownAudit(record, procedure);
  if (audit.cannot) return { ...common, room: null };
  const suggestion = await suggestions(`${recordKey(record)} ${procedure.id}`, async () =>
    suggestionFor(audit, record),
  );
  const view = viewOf(url.searchParams.get('view'), audit, suggestion);
  const asked = url.searchParams.has('procedure') ? procedure.id : null;
  return { ...common, room: chooseView(audit, suggestion, view, { heldBack, procedure: asked }) };
};
