/**
 * What stands in front of the app for every request, static files included: Kit's own hooks do not see those.
 */

const headers = {
  'x-content-type-options': 'nosniff',
  'x-frame-options': 'DENY',
  // `no-referrer` would make browsers send "Origin: null" with our own forms.
  'referrer-policy': 'same-origin',
  'cross-origin-opener-policy': 'same-origin',
  'cross-origin-resource-policy': 'same-origin',
  'permissions-policy': 'camera=(), microphone=(), geolocation=(), usb=(), serial=(), bluetooth=(), payment=()',
  // For static files; Kit puts each page's own, stricter one in its place.
  'content-security-policy': "default-src 'self'; base-uri 'none'; frame-ancestors 'none'; form-action 'none'",
  // Pages hold a surgeon's record, and the computer may be shared. Files with a hash in their name set their own.
  'cache-control': 'no-store',
};

/** @typedef {{ origin: string, also: string[] }} Place the one origin, and other names (with port) that lead to it */

/** @param {number} port @param {'http' | 'https'} scheme @returns {Place} */
export const onLoopback = (port, scheme = 'http') => ({
  origin: `${scheme}://127.0.0.1:${port}`,
  also: [`localhost:${port}`, `[::1]:${port}`],
});

/**
 * A page elsewhere can point a name of its own at 127.0.0.1; so only requests under our own names are answered.
 * Two of them lead to the first, so that there is one origin, one set of drafts and one service worker.
 * @param {{ method?: string, url?: string, headers: { host?: string } }} request
 * @param {Place} place
 * @returns {{ kind: 'serve' } | { kind: 'redirect', to: string } | { kind: 'refuse', status: number, why: string }}
 */
export function judge(request, { origin, also }) {
  const { host } = request.headers;
  const url = request.url ?? '';
  if (!url.startsWith('/')) return { kind: 'refuse', status: 400, why: 'This is not an address of this program.' };
  if (host === new URL(origin).host) return { kind: 'serve' };
  if (host !== undefined && also.includes(host)) {
    const reading = request.method === 'GET' || request.method === 'HEAD';
    if (reading) return { kind: 'redirect', to: `${origin}${url}` };
  }
  return { kind: 'refuse', status: 421, why: `This program answers only at ${origin}.` };
}

/**
 * @param {import('node:http').IncomingMessage} request
 * @param {import('node:http').ServerResponse} response
 * @param {Place} place
 * @returns {boolean} whether the app may answer; otherwise it has been answered here
 */
export function letIn(request, response, place) {
  for (const [name, value] of Object.entries(headers)) response.setHeader(name, value);
  const verdict = judge(request, place);
  if (verdict.kind === 'serve') return true;
  if (verdict.kind === 'redirect') response.writeHead(307, { location: verdict.to }).end();
  else response.writeHead(verdict.status, { 'content-type': 'text/plain; charset=utf-8' }).end(`${verdict.why}\n`);
  return false;
}
