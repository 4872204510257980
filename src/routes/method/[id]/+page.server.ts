import { error, redirect } from '@sveltejs/kit';
import { loadMethodPages, renderMarkdown } from '$lib/server/content';
import type { PageServerLoad } from './$types';

/** Pages that had another name: a link kept by somebody, or printed in a report, still leads to them. */
const FORMER: Readonly<Record<string, string>> = {
  usual: 'median',
  'went-back': 'returned-to',
  'starting-cases': 'baseline-cases',
  'the-twenty': 'next-twenty',
};

export const load: PageServerLoad = ({ params }) => {
  const page = loadMethodPages().find((each) => each.id === params.id);
  const now = Object.hasOwn(FORMER, params.id) ? FORMER[params.id] : undefined;
  if (now) redirect(301, `/method/${now}`);
  if (!page) error(404, 'No such page on how a number is made.');
  return {
    id: page.id,
    title: page.title,
    html: renderMarkdown(page.body).replace(
      '<p><strong>For statisticians.',
      '<p class="small"><strong>For statisticians.',
    ),
    pages: loadMethodPages().map(({ id, title }) => ({ id, title })),
  };
};
