import type { LayoutServerLoad } from './$types';

export const load: LayoutServerLoad = async ({ locals }) => {
  const cases = await locals.store.cases();
  return { invented: cases.some((each) => each.invented) };
};
