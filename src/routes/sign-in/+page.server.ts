import { fail, redirect, type RequestEvent } from '@sveltejs/kit';
import { dropSession, keepSession, pageOfOurs, sessionIn } from '$lib/server/access/at-the-door';
import { IDLE_MINUTES } from '$lib/server/access/sessions';
import { StorageError } from '$lib/server/storage';
import type { Actions, PageServerLoad } from './$types';

export const load: PageServerLoad = async ({ locals, url }) => {
  if (!locals.access?.asks) redirect(303, '/');
  const left = url.searchParams.get('left') === 'yes';
  if (locals.signedIn && !left) redirect(303, pageOfOurs(url.searchParams.get('to')));
  return {
    to: pageOfOurs(url.searchParams.get('to')),
    out: url.searchParams.get('said') === 'out',
    left: left ? IDLE_MINUTES : null,
    plain: locals.access.reach === 'http',
    /** The files themselves cannot be read without it. */
    encrypted: locals.access.files !== 'plain',
  };
};

/** The passphrase was right; the folder is what keeps the record shut. */
function notOpened(why: unknown): string {
  if (why instanceof StorageError) return why.message;
  console.error('The record could not be opened:', why);
  return `The record could not be opened (${(why as NodeJS.ErrnoException).code ?? 'see what the program prints'}). Each file is whole, encrypted or plain; sign in again to go on.`;
}

/** What this browser keeps of the record goes too: the note for the list, and text that was not stored. */
function signedOut(event: RequestEvent): never {
  dropSession(event);
  event.setHeaders({ 'clear-site-data': '"cache", "storage"' });
  redirect(303, '/sign-in?said=out');
}

export const actions = {
  in: async (event) => {
    const { access } = event.locals;
    if (!access?.asks) redirect(303, '/');
    const form = await event.request.formData();
    const to = pageOfOurs(String(form.get('to') ?? ''));
    const signed = await access.signIn(String(form.get('passphrase') ?? ''), event.getClientAddress(), Date.now());
    if (signed.refused) return fail(400, { errors: [signed.refused], to });
    try {
      await event.locals.record?.open(signed.data, event.locals.now);
    } catch (why) {
      access.signOut(signed.token);
      return fail(409, { errors: [{ field: 'passphrase', message: notOpened(why) }], to });
    }
    keepSession(event, signed.token);
    redirect(303, to);
  },

  out: async (event) => {
    event.locals.access?.signOut(sessionIn(event));
    return signedOut(event);
  },

  /** Only from inside: a page that is signed out could otherwise sign out the others. */
  everywhere: async (event) => {
    if (event.locals.signedIn) event.locals.access?.signOutEverywhere();
    return signedOut(event);
  },
} satisfies Actions;
