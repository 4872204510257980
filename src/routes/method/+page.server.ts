import { loadMethodPages } from '$lib/server/content';
import type { PageServerLoad } from './$types';

export const load: PageServerLoad = () => ({ pages: loadMethodPages().map(({ id, title }) => ({ id, title })) });
