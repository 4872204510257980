import { loadMethodPages } from '$lib/server/content';
import type { PageServerLoad } from './$types';

/** The first sentence of a page, as plain text. */
const leadOf = (body: string): string =>
  (body.trim().split('\n')[0] ?? '')
    .replace(/^\*\*[^*]+\*\*\s*/, '')
    .replaceAll('*', '')
    .replace(/(?<=[.?!]"?) .*$/s, '');

export const load: PageServerLoad = () => ({
  pages: loadMethodPages().map(({ id, title, body }) => ({ id, title, lead: leadOf(body) })),
});
