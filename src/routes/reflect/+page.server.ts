import { goalOfReview, waitingCases } from '$lib/rooms/goals/waiting-for-review';
import { noteFinder, reflectionRows, waitingLists } from '$lib/rooms/reflect/reflect-view';
import { loadCautions, renderOwnMarkdown } from '$lib/server/content';
import { readRecord } from '$lib/server/record';
import type { PageServerLoad } from './$types';

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
    draft: (await store.draft('reflection-new')) !== null,
    said: url.searchParams.get('said'),
    /** Once nothing waits any more. */
    next: goal && waiting.length === 0 ? { href: `/after-twenty/${goal.id}`, words: 'Where your goal stands' } : null,
  };
};
