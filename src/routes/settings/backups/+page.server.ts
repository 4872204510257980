import { fail, redirect } from '@sveltejs/kit';
import { textOf, type Fields } from '$lib/rooms/forms/fields';
import {
  backupsView,
  broughtBackWords,
  monthsFromForm,
  monthsWords,
  secondFolderView,
} from '$lib/rooms/settings/backups/backups-view';
import { attempt } from '$lib/server/attempt';
import { fieldsOf } from '$lib/server/form-fields';
import { localTime } from '$lib/server/local-time';
import { refuseIfStale, revisionOf } from '$lib/server/revision';
import { saidIn } from '$lib/server/said-in';
import { orDamaged } from '$lib/server/say-damage';
import type { Store } from '$lib/server/storage';
import type { Actions, PageServerLoad } from './$types';

const SAID: Record<string, string> = {
  months: 'Stored. Backups older than that are gone.',
  same: 'Nothing differed; nothing was changed.',
  aside: 'Those copies are gone.',
  second: 'Stored.',
};

const SINCE_OPENED =
  'Something was stored since this page was opened, and would be taken back with the rest. The list shows it now: choose again.';

const secondNow = async (store: Store): Promise<string> => (await store.secondFolder())?.folder ?? '';

const chosenIn = async (store: Store, at: string | null) => {
  const files = at === null ? null : await store.changedSince(at);
  return at === null || files === null ? null : { at, files };
};

export const load: PageServerLoad = async ({ locals, url }) => {
  const { store } = locals;
  const moments = await store.backups();
  const at = url.searchParams.get('at');
  // Once something else has been stored, going back would take that back too: it is then chosen in the list, knowingly.
  const undo = moments[0]?.at === url.searchParams.get('undo') ? (moments[0]?.at ?? null) : null;
  const back = moments.find((each) => each.at === url.searchParams.get('back'))?.at ?? null;
  const months = await store.profile().then(
    ({ backupMonths }) => backupMonths,
    (why: unknown) =>
      orDamaged(() => {
        throw why;
      }, null),
  );
  return {
    view: backupsView(moments, await chosenIn(store, at), localTime),
    gone: at !== null && !moments.some((each) => each.at === at),
    undo,
    file: url.searchParams.get('file'),
    brought: back && broughtBackWords(localTime(back), url.searchParams.get('file')),
    months,
    monthsWords: months === null ? null : monthsWords(months),
    seen: revisionOf(months),
    aside: await store.setAside(),
    second: secondFolderView(await store.secondFolder(), localTime),
    seenSecond: revisionOf(await secondNow(store)),
    place: store.place,
    said: saidIn(SAID, url),
  };
};

export const actions = {
  back: async ({ locals, request }) => {
    const fields = fieldsOf(await request.formData());
    const at = textOf(fields, 'at');
    const name = textOf(fields, 'file') || null;
    const newest = (await locals.store.backups())[0]?.at;
    if (newest !== textOf(fields, 'newest'))
      return fail(409, { errors: [{ field: 'moments', message: SINCE_OPENED }] });
    const { done, refused } = await attempt('main', () => locals.store.restoreBackup(at, name, locals.now));
    if (refused) return fail(409, { errors: [refused] });
    if (done === null) redirect(303, '/settings/backups?said=same');
    const query = new URLSearchParams({ back: at, undo: done, ...(name === null ? {} : { file: name }) });
    redirect(303, `/settings/backups?${query.toString()}`);
  },

  months: async ({ locals, request }) => {
    const fields = fieldsOf(await request.formData());
    const { months, errors } = monthsFromForm(fields);
    if (errors.length > 0) return fail(400, { errors, values: fields });
    const { refused } = await attempt('months', () =>
      locals.store.changeProfile((stored) => {
        refuseIfStale(textOf(fields, 'seen'), stored.backupMonths, 'This setting', monthsWords(stored.backupMonths));
        return { ...stored, backupMonths: months };
      }),
    );
    if (refused) return fail(409, { errors: [refused], values: fields });
    redirect(303, '/settings/backups?said=months');
  },

  second: async ({ locals, request }) => {
    const fields = fieldsOf(await request.formData());
    const folder = textOf(fields, 'second');
    const now = await secondNow(locals.store);
    const { refused } = await attempt('second', () => {
      refuseIfStale(textOf(fields, 'seen'), now, 'The second folder', now === '' ? 'none' : now);
      return locals.store.chooseSecondFolder(folder === '' ? null : folder);
    });
    if (refused) return fail(409, { errors: [refused], values: { ...fields, seen: [revisionOf(now)] } as Fields });
    redirect(303, '/settings/backups?said=second');
  },

  aside: async ({ locals }) => {
    const { refused } = await attempt('aside', () => locals.store.dropSetAside());
    if (refused) return fail(409, { errors: [refused] });
    redirect(303, '/settings/backups?said=aside');
  },
} satisfies Actions;
