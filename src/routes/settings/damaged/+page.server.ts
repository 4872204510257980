import { fail, redirect } from '@sveltejs/kit';
import { attempt } from '$lib/server/attempt';
import { localTime } from '$lib/server/local-time';
import { sentBackup } from '$lib/server/restore';
import { saidIn } from '$lib/server/said-in';
import type { Store } from '$lib/server/storage';
import type { Actions, PageServerLoad } from './$types';

const SAID: Record<string, string> = {
  back: 'That file was brought back. Changes made after the export are not in it.',
  backup: 'That file was brought back from its newest good backup. What was changed after that backup is not in it.',
  without: 'The record goes on without that file. A copy of what could not be read stays beside it in the folder.',
};

/** The newest good backup of a file, in words. */
async function backupOf(store: Store, name: string) {
  const newest = await store.newestBackup(name);
  return newest && { when: localTime(newest.at), holds: newest.holds };
}

export const load: PageServerLoad = async ({ locals, url }) => ({
  damaged: await Promise.all(
    (await locals.store.damaged()).map(async (each) => ({ ...each, backup: await backupOf(locals.store, each.name) })),
  ),
  place: locals.store.place,
  said: saidIn(SAID, url),
});

const put = (message: string, status: number) => fail(status, { errors: [{ field: 'main', message }] });

export const actions = {
  back: async ({ locals, request, url }) => {
    const sent = await sentBackup(request, locals.store.place);
    if ('problem' in sent) return put(sent.problem, 400);
    const name = url.searchParams.get('file') ?? '';
    if (sent.missing.some((each) => each.startsWith(`${name}:`)))
      return put(
        `That file was exported while ${name}.json could not be read, so it does not hold it. Choose an earlier one; nothing was changed.`,
        400,
      );
    const { refused } = await attempt('main', () => locals.store.replaceDamaged(name, sent.everything));
    if (refused) return fail(409, { errors: [refused] });
    redirect(303, '/settings/damaged?said=back');
  },
  backup: async ({ locals, url }) => {
    const name = url.searchParams.get('file') ?? '';
    const { refused } = await attempt('main', () => locals.store.replaceDamaged(name, 'backup'));
    if (refused) return fail(409, { errors: [refused] });
    redirect(303, '/settings/damaged?said=backup');
  },
  without: async ({ locals, url }) => {
    const name = url.searchParams.get('file') ?? '';
    const { refused } = await attempt('main', () => locals.store.replaceDamaged(name, null));
    if (refused) return fail(409, { errors: [refused] });
    redirect(303, '/settings/damaged?said=without');
  },
} satisfies Actions;
