import type { Everything } from '../../src/lib/server/storage/port';
import type { App } from './app';
import type { Room } from './rooms';
import type { Surgeon } from './surgeons';

/** Sends a form as a browser without scripts would, and follows nothing. @returns where it leads */
export async function post(
  app: App,
  action: string,
  fields: Record<string, string | readonly string[]>,
): Promise<string> {
  const body = new URLSearchParams();
  for (const [name, values] of Object.entries(fields)) for (const value of [values].flat()) body.append(name, value);
  const answer = await fetch(new URL(action, app.origin), {
    method: 'POST',
    body,
    headers: { origin: app.origin, accept: 'text/html' },
    redirect: 'manual',
  });
  if (answer.status !== 303)
    throw new Error(`${action} answered ${answer.status}: ${(await answer.text()).slice(0, 2000)}`);
  return answer.headers.get('location') ?? '';
}

/** Folders with an invented surgeon in them, by surgeon. */
const prepared = new Map<Surgeon, string>();

/** An empty record, or one with an invented surgeon in it; between tests only, because the port changes. */
export async function startWith(app: App, surgeon: Surgeon): Promise<void> {
  await app.startEmpty(prepared.get(surgeon));
  if (surgeon === 'empty' || prepared.has(surgeon)) return;
  await post(app, '/?/lookRound', { surgeon });
  // Each worker makes a surgeon's folder once, as a person would, and copies it from then on.
  prepared.set(surgeon, await app.copyOfFolder());
}

/** All that is stored, as the full backup tells it. */
export const everythingOf = async (app: App): Promise<Everything> =>
  (await fetch(new URL('/settings/everything.json', app.origin))).json();

/** A file with something to ask and something wrong in it. */
const FILE = `case_id,date,capsulorhexis,hydrodissection,cortex,remarks
H1,2026-11-02,1.23,34,0.50,calm
H2,2026-11-02,1.31,0,1.02,
H3,2026-11-09,1.75,29,-3,
mean,,1.43,31,0.46,`;

/** Rooms that are there only while something waits in them: a file before it is taken, a case half typed. */
export async function waitingRooms(app: App): Promise<Room[]> {
  const form = { code: 'W1', procedure: 'phaco', hands: 'mine', events: 'none', 'fact-nucleus': 'medium' };
  return [
    { name: 'bring-in-look', path: await post(app, '/cases/bring-in?/hold', { cells: FILE }) },
    { name: 'new-case-times', path: await post(app, '/cases/new?/facts', form) },
  ];
}
