import { error } from '@sveltejs/kit';
import { loadMethodPages, renderMarkdown } from '$lib/server/content';
import type { PageServerLoad } from './$types';

export const load: PageServerLoad = ({ params }) => {
  const page = loadMethodPages().find((each) => each.id === params.id);
  if (!page) error(404, 'No such page on how a number is made.');
  return { title: page.title, html: renderMarkdown(page.body) };
};
