import { reportOf } from '$lib/server/report';
import { renderOwnMarkdown } from '$lib/server/content';
import type { PageServerLoad } from './$types';

export const load: PageServerLoad = async ({ locals, url }) => {
  const { report, choices, asked, looksLike } = await reportOf(locals.store, url.searchParams);
  return {
    report: report && {
      ...report,
      notes: report.notes.map((note) => ({
        ...note,
        saw: renderOwnMarkdown(note.saw),
        willTry: renderOwnMarkdown(note.willTry),
      })),
    },
    choices,
    asked,
    looksLike,
    query: url.search || (asked ? `?of=${asked}` : ''),
  };
};
