import { textOf } from '$lib/rooms/forms/fields';
import { instantWords } from '$lib/rooms/forms/when-words';
import { goalOfReview, waitingCases } from '$lib/rooms/goals/waiting-for-review';
import { noteFinder, reflectionRows, waitingLists } from '$lib/rooms/reflect/reflect-view';
import { loadCautions, renderOwnMarkdown } from '$lib/server/content';
import { attempt } from '$lib/server/attempt';
import { fieldsOf } from '$lib/server/form-fields';
import { readRecord } from '$lib/server/record';
import type { Store } from '$lib/server/storage/port';
import { fail, redirect } from '@sveltejs/kit';
import type { Actions, PageServerLoad } from './$types';

/** The note that was deleted last, while it can be put back. */
async function removedNote(store: Store, now: string) {
  const removed = await store.removedReflection(now);
  return removed ? { id: removed.id, day: instantWords(removed.at) } : null;
}

export const load: PageServerLoad = async ({ locals, url }) => {
  const { store } = locals;
  const record = await readRecord(store);
  const waiting = waitingCases(record);
  const goal = goalOfReview(record);
  const asked = (name: string) => (url.searchParams.get(name) ?? '').slice(0, 100);
  const filter = {
    word: asked('word'),
    stepId: asked('step'),
    checkpointId: asked('checkpoint'),
    from: asked('from'),
    to: asked('to'),
  };
  return {
    waiting: waiting.length,
    /** A case noted by hand has no recording. */
    watch: record.cases.some(({ id, source }) => waiting.includes(id) && source.kind !== 'by-hand'),
    lists: waitingLists(record.cases, record.lists, waiting),
    all: record.reflections.length,
    filter,
    filtered: Object.values(filter).some(Boolean),
    finder: noteFinder(record),
    rows: reflectionRows(record, filter).map((row) => ({
      ...row,
      sawHtml: renderOwnMarkdown(row.saw),
      willTryHtml: renderOwnMarkdown(row.willTry),
    })),
    notice: loadCautions().reflection.paragraphs,
    removed: await removedNote(store, locals.now),
    draft: (await store.draft('reflection-new')) !== null,
    said: url.searchParams.get('said'),
    /** Once nothing waits any more. */
    next: goal && waiting.length === 0 ? { href: `/after-twenty/${goal.id}`, words: 'Where your goal stands' } : null,
  };
};

export const actions = {
  /** The note that was deleted last comes back as it was. */
  putBack: async ({ locals, request }) => {
    const id = textOf(fieldsOf(await request.formData()), 'id');
    const { refused } = await attempt('removed', () => locals.store.putBackReflection(id, locals.now));
    if (refused) return fail(409, { errors: [refused] });
    redirect(303, '/reflect?said=back');
  },
} satisfies Actions;
