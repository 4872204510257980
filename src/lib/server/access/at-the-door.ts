import { redirect, type RequestEvent } from '@sveltejs/kit';

export const SIGN_IN = '/sign-in';
const COOKIE = 'next-twenty-session';

export const sessionIn = ({ cookies }: RequestEvent): string | undefined => cookies.get(COOKIE);

/** No other site's page sends it, no script reads it, and it goes with the browser. */
export function keepSession({ cookies, url }: RequestEvent, token: string): void {
  cookies.set(COOKIE, token, { path: '/', httpOnly: true, sameSite: 'strict', secure: url.protocol === 'https:' });
}

export function dropSession({ cookies }: RequestEvent): void {
  cookies.delete(COOKIE, { path: '/' });
}

/** A page of ours to go back to; anything that could lead elsewhere leads to the first one. */
export function pageOfOurs(to: string | null): string {
  if (!to || !/^\/(?![/\\])/.test(to) || /[\\\p{Cc}]/u.test(to) || to.startsWith(SIGN_IN)) return '/';
  return to;
}

const STILL_THERE =
  'You are signed out, so nothing was stored; what you typed is still here. Sign in in another tab, then press once more.';

/** What somebody who is not signed in hears: reading leads to the sign-in page, a change is refused with its text kept. */
export function turnedAway({ request, url }: RequestEvent): Response {
  if (request.method === 'GET' || request.method === 'HEAD') {
    const to = pageOfOurs(`${url.pathname}${url.search}`);
    redirect(303, to === '/' ? SIGN_IN : `${SIGN_IN}?to=${encodeURIComponent(to)}`);
  }
  const headers = { 'cache-control': 'no-store' };
  if (request.headers.get('x-sveltekit-action') === 'true')
    return Response.json({ type: 'error', status: 401, error: { message: STILL_THERE } }, { status: 200, headers });
  return new Response(
    'You are signed out, so nothing was stored. Go back: what you typed is still in the form. Sign in in another tab, then send it again.\n',
    { status: 401, headers: { ...headers, 'content-type': 'text/plain; charset=utf-8' } },
  );
}
