import { resolve as absolute } from 'node:path';
import { building, dev } from '$app/environment';
import { StaleVersionError, StorageError, type Store } from '$lib/server/storage';
import type { Handle, HandleServerError, ServerInit } from '@sveltejs/kit';
import { reachIn } from './lib/server/access/access';
import { sessionIn, SIGN_IN, turnedAway } from './lib/server/access/at-the-door';
import { TheRecord } from './lib/server/access/the-record';
import { dataFolder } from './run/data-folder.js';
import { faultOf, noteFault, noteFaultsIn } from './lib/server/faults';
import { forgetSurgeons } from './lib/server/held-people';
import { heedForms } from './lib/server/heed-forms';
import { sayingDamage } from './lib/server/say-damage';
import { readOnly, refusedChange } from './lib/server/refused-change';
import { SentTwice } from './lib/server/sent-twice';
import { AboutPersons, askingAboutPersons, withNone } from './lib/server/about-persons';

/** On the process, because `vite dev` reads this file again at every edit while the folder stays ours. */
const opened = globalThis as typeof globalThis & { nextTwentyRecord?: Promise<TheRecord> };

/** A folder that cannot be opened ends the process here, with the reason, before a page is served. */
export const init: ServerInit = async () => {
  if (building) return;
  const folder = dev && !process.env.NEXT_TWENTY_DATA ? absolute('.tools/dev-data') : dataFolder();
  if (!opened.nextTwentyRecord) {
    noteFaultsIn(folder);
    noteWhatNobodyWaitedFor();
    opened.nextTwentyRecord = TheRecord.at(folder, reachIn(process.env), new Date().toISOString());
    const minutes = setInterval(() => void dropForgotten(), A_MINUTE).unref();
    process.once('sveltekit:shutdown', () => {
      clearInterval(minutes);
      closeStore().catch((why) => {
        console.error('The store did not close as it should:', why);
        process.exitCode = 1;
      });
    });
  }
  await opened.nextTwentyRecord;
};

const A_MINUTE = 60_000;

/** A file that was looked at and not taken goes after its hour, whether or not anybody asks for a page. */
async function dropForgotten(): Promise<void> {
  try {
    const [record, now] = [await opened.nextTwentyRecord, new Date().toISOString()];
    const store = record?.store;
    await store?.dropForgottenImports(now);
    if (store) forgetSurgeons(await store.heldImports(now));
  } catch (why) {
    noteFault(faultOf(why, 'files whose hour is over', new Date().toISOString()));
  }
}

/** One request's fault must not end the program for all; an exception outside of every request still does, once noted. */
function noteWhatNobodyWaitedFor(): void {
  process.on('unhandledRejection', (why) => {
    const id = noteFault(faultOf(why, 'outside of a page', new Date().toISOString()));
    console.error(`error ${id}: outside of a page`, why);
  });
  process.on('uncaughtExceptionMonitor', (why) => {
    noteFault(faultOf(why, 'outside of a page', new Date().toISOString()));
  });
}

/** Whoever told us to stop waits for no answer: the process lives until this has settled. */
async function closeStore(): Promise<void> {
  await (await opened.nextTwentyRecord)?.close();
}

/**
 * An answer sent before the request has ended does not reach the browser: it sees the connection break, not the reason.
 */
async function readToTheEnd(request: Request): Promise<void> {
  const reader = request.body?.getReader();
  try {
    while (reader && !(await reader.read()).done);
  } catch {
    // more than the server reads of anything; then the connection does break
  }
}

/** Scripts and styles, and of the typefaces the two that every page is set in. */
const isNeededAtOnce = ({ type, path }: { type: string; path: string }): boolean =>
  type === 'js' || type === 'css' || /newsreader-latin-opsz-normal|source-sans-3-latin-wght-normal/.test(path);

/** Settings that cannot be read must not keep anybody from storing elsewhere: then everything is asked again. */
const saidNone = (store: Store): Promise<readonly string[]> =>
  store.profile().then(
    ({ notPersons }) => notPersons ?? [],
    () => [],
  );

const sentTwice = new SentTwice();

export const handle: Handle = async ({ event, resolve }) => {
  const refused = refusedChange(event.request, event.url);
  if (refused) {
    if (refused.status !== 403) await readToTheEnd(event.request);
    return new Response(refused.why, { status: refused.status, headers: { 'content-type': 'text/plain' } });
  }
  const record = await opened.nextTwentyRecord;
  event.locals.record = record;
  event.locals.access = record?.access;
  const store = record?.store ?? null;
  event.locals.signedIn = !record || (store !== null && record.access.letsIn(sessionIn(event), Date.now()));
  if (!event.locals.signedIn && event.url.pathname !== SIGN_IN) return turnedAway(event);

  if (store) event.locals.store = sayingDamage(store);
  event.locals.now = new Date().toISOString();
  if (readOnly.includes(event.request.method) || !store) return resolve(event, { preload: isNeededAtOnce });

  return sentTwice.answer(event.request, Date.now(), async () => {
    const about = (event.locals.persons = new AboutPersons(await saidNone(store)));
    heedForms(event.request, (form) => about.heardForm(form));
    event.locals.store = askingAboutPersons(event.locals.store, about);
    const answer = await resolve(event, { preload: isNeededAtOnce });
    if (about.saidNone.size > 0) await store.changeProfile((profile) => withNone(profile, about.saidNone));
    return answer;
  });
};

/** What the store refuses is said as it is; anything else gets a number to find it by, here and in the log of faults. */
export const handleError: HandleServerError = ({ error, event, status }) => {
  if (error instanceof StaleVersionError) return { message: error.message };
  if (error instanceof StorageError) {
    console.error(error.message);
    return { message: error.message };
  }
  if (status === 404) return { message: 'There is no page at this address.' };
  if (status < 500) return { message: 'What was sent is not what this page takes. Nothing was changed.' };
  const where = `${event.request.method} ${event.route.id ?? ''}`;
  const errorId = noteFault(faultOf(error, where, new Date().toISOString()));
  console.error(`error ${errorId}: ${event.request.method} ${event.url.pathname}`, error);
  return { message: 'Something went wrong here. What was already saved is still there.', errorId };
};
