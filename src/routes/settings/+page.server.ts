import { fail, redirect, type RequestEvent } from '@sveltejs/kit';
import {
  circumstancesOf,
  circumstanceWords,
  profileFromForm,
  rateFromForm,
  rateWords,
  settingsView,
} from '$lib/rooms/settings/settings-view';
import { seriousRatePublished } from '$lib/safety';
import { dropSession, keepSession } from '$lib/server/access/at-the-door';
import { LEAST_LETTERS } from '$lib/server/access/passphrase';
import { userAccounts } from '$lib/server/access/user-accounts';
import { IDLE_MINUTES } from '$lib/server/access/sessions';
import { LOST_PASSPHRASE, STAYS_PLAIN } from '$lib/words/encrypted';
import { attempt } from '$lib/server/attempt';
import { loadCautions } from '$lib/server/content';
import { textOf, type Fields } from '$lib/rooms/forms/fields';
import { fieldsOf } from '$lib/server/form-fields';
import { refuseIfStale, revisionOf } from '$lib/server/revision';
import type { Store } from '$lib/server/storage';
import { readRecord } from '$lib/server/record';
import { saidIn } from '$lib/server/said-in';
import type { Actions, PageServerLoad } from './$types';

const SAID: Record<string, string> = {
  stored: 'Stored.',
  restored: 'Everything from the file is here again.',
  part: 'What the file holds is here again. It was exported while a part of the record could not be read; what it lacks is named in it, under "missing".',
  undone: 'The whole import was taken back.',
  reference: 'The reference set was removed.',
  packet: 'The packet is kept as a reference set.',
  invented: 'The invented surgeon was removed, with everything that belonged to it.',
  consent: 'Noted for recordings.',
  passphrase: 'The passphrase is set. Everybody else has to sign in with it.',
  'no-passphrase': 'The passphrase was removed.',
  encrypted: 'The passphrase is asked for, and every file of the record is encrypted.',
  plain: 'The files of the folder are plain again.',
};

/** What each of the two forms was filled from. */
async function seenIn(store: Store): Promise<{ circumstances: string; rate: string }> {
  const profile = await store.profile();
  return { circumstances: revisionOf(circumstancesOf(profile)), rate: revisionOf(profile.seriousRate) };
}

/** What was typed comes back with the marks of what is stored now: stored again, it goes in the place of that. */
async function withSeenNow(fields: Fields, store: Store): Promise<Fields> {
  const { circumstances, rate } = await seenIn(store);
  return { ...fields, seenCircumstances: [circumstances], seenRate: [rate] };
}

export const load: PageServerLoad = async ({ locals, url }) => {
  const { store } = locals;
  const [record, imports, erased] = await Promise.all([readRecord(store), store.imports(), store.erasedCount()]);
  const texts = loadCautions();
  return {
    view: settingsView(record, { imports, erased, published: seriousRatePublished }),
    seen: await seenIn(store),
    place: store.place,
    passphrase: {
      set: locals.access?.asks ?? false,
      reach: locals.access?.reach ?? 'loopback',
      idle: IDLE_MINUTES,
      least: LEAST_LETTERS,
      files: locals.access?.files ?? 'plain',
      accounts: await userAccounts(),
      words: { lost: LOST_PASSPHRASE, plain: STAYS_PLAIN },
    },
    said: saidIn(SAID, url),
    texts: {
      responsible: texts.responsible.paragraphs,
      codes: texts.codes.paragraphs,
      rest: texts['data-at-rest'].paragraphs,
      erase: texts.erase.paragraphs,
      recording: texts['recording-consent'].paragraphs,
      reference: texts['reference-consent'].paragraphs,
    },
  };
};

const id = async (request: Request) => String((await request.formData()).get('id') ?? '');

/** Encrypts every file of the folder, or makes them plain again; the record is closed meanwhile. */
async function turnFiles(event: RequestEvent, to: 'sealing' | 'opening', text: string) {
  const { access, record, now } = event.locals;
  if (!access || !record) return fail(409, { errors: [{ field: 'old', message: 'There is no folder to encrypt.' }] });
  const found = await access.turn(to, text, event.getClientAddress(), Date.now());
  if (found.refused) return fail(400, { errors: [found.refused] });
  // Where it is broken off, the sign-in page says why, and goes on with it.
  await record
    .openAgain(found.data, now)
    .catch((why: unknown) => console.error('The change of files was broken off:', why));
  redirect(303, record.store ? `/settings?said=${to === 'sealing' ? 'encrypted' : 'plain'}#access` : '/sign-in');
}

export const actions = {
  profile: async ({ locals, request }) => {
    const fields = fieldsOf(await request.formData());
    const { procedures, profile } = await readRecord(locals.store);
    const { errors } = profileFromForm(fields, { procedures, profile });
    if (errors.length > 0) return fail(400, { errors, values: fields });
    const { refused } = await attempt('procedureId', () =>
      locals.store.changeProfile((stored) => {
        refuseIfStale(
          textOf(fields, 'seen'),
          circumstancesOf(stored),
          'This part of the settings',
          circumstanceWords(stored, procedures),
        );
        return profileFromForm(fields, { procedures, profile: stored }).profile;
      }),
    );
    if (refused) return fail(409, { errors: [refused], values: await withSeenNow(fields, locals.store) });
    redirect(303, '/settings?said=stored');
  },

  rate: async ({ locals, request }) => {
    const fields = fieldsOf(await request.formData());
    const { rate, errors } = rateFromForm(fields);
    if (errors.length > 0) return fail(400, { errors, values: fields });
    const { refused } = await attempt('rate', () =>
      locals.store.changeProfile((stored) => {
        refuseIfStale(textOf(fields, 'seen'), stored.seriousRate, 'The rate', rateWords(stored));
        return { ...stored, seriousRate: rate };
      }),
    );
    if (refused) return fail(409, { errors: [refused], values: await withSeenNow(fields, locals.store) });
    redirect(303, '/settings?said=stored');
  },

  consent: async ({ locals }) => {
    const { refused } = await attempt('about', () =>
      locals.store.changeProfile((stored) => ({ ...stored, recordingsConsentAt: locals.now })),
    );
    if (refused) return fail(409, { errors: [refused] });
    redirect(303, '/settings?said=consent');
  },

  removeReference: async ({ locals, request }) => {
    const set = await id(request);
    const { refused } = await attempt('references', () => locals.store.removeReference(set));
    if (refused) return fail(409, { errors: [refused] });
    redirect(303, '/settings?said=reference');
  },

  undoImport: async ({ locals, request }) => {
    const held = await id(request);
    const { refused } = await attempt('imports', () => locals.store.undoImport(held, locals.now));
    if (refused) return fail(409, { errors: [refused] });
    redirect(303, '/settings?said=undone');
  },

  removeInvented: async ({ locals }) => {
    const { refused } = await attempt('invented', () => locals.store.removeInvented());
    if (refused) return fail(409, { errors: [refused] });
    redirect(303, '/settings?said=invented');
  },

  passphrase: async (event) => {
    const form = await event.request.formData();
    const typed = (name: string) => String(form.get(name) ?? '');
    const asked = { old: typed('old'), text: typed('passphrase'), again: typed('again') };
    const done = await event.locals.access?.set(asked, event.getClientAddress(), Date.now());
    if (done?.refused) return fail(400, { errors: [done.refused] });
    if (done) keepSession(event, done.token);
    if (form.get('encrypt') === 'yes') return turnFiles(event, 'sealing', asked.text);
    // Each copy in a second folder opens by itself: with the new passphrase from now on, not from the next change on.
    const second = await event.locals.store.secondFolder();
    if (done && second?.folder) await event.locals.store.chooseSecondFolder(second.folder);
    redirect(303, '/settings?said=passphrase#access');
  },

  encrypt: async (event) => turnFiles(event, 'sealing', String((await event.request.formData()).get('old') ?? '')),
  decrypt: async (event) => turnFiles(event, 'opening', String((await event.request.formData()).get('old') ?? '')),

  noPassphrase: async (event) => {
    const old = String((await event.request.formData()).get('old') ?? '');
    const refused = await event.locals.access?.remove(old, event.getClientAddress(), Date.now());
    if (refused) return fail(400, { errors: [refused] });
    dropSession(event);
    redirect(303, '/settings?said=no-passphrase#access');
  },
} satisfies Actions;
