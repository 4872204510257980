import { error, json } from '@sveltejs/kit';
import { readTimingDraft } from '$lib/recording';
import { draftKey } from '$lib/rooms/cases/new-case-view';
import { caseOfAgain } from '$lib/rooms/cases/timed-again';
import { keepTiming } from '$lib/server/timing-drafts';
import type { RequestHandler } from './$types';

/** Keeps the marks of one case at every mark. 409 with the marks kept elsewhere since, where another tab was there. */
export const POST: RequestHandler = async ({ locals, request }) => {
  const sent = (await request.json().catch(() => null)) as Readonly<Record<string, unknown>> | null;
  const draft = readTimingDraft(JSON.stringify(sent?.draft ?? null));
  const { base, tab } = sent ?? {};
  if (!draft || typeof base !== 'number' || typeof tab !== 'string' || tab.length > 100)
    error(400, 'These are no marks of a recording. Nothing was stored.');
  const twice = caseOfAgain(draft.code);
  const there = twice === null ? await locals.store.draft(draftKey(draft.code)) : await locals.store.caseById(twice);
  if (there === null)
    error(410, 'The facts of this case are no longer there: it was stored already, or given up in another tab.');
  const kept = await keepTiming(locals.store, { draft, base, tab });
  return json(kept, { status: kept.overtakenBy ? 409 : 200 });
};
