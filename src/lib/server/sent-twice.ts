import { createHash } from 'node:crypto';

/** How long a form sent again is still the one sent before: a page gone back to, a connection that tried once more. */
const MILLISECONDS = 10 * 60_000;

type Answer = { status: number; headers: [string, string][]; body: string };

/**
 * A form that is sent twice does its work once, and the second answer shows what the first did: pressed twice, sent again
 * after Back, or tried once more by the browser. The same form is the same text to the same address while nothing else was
 * changed in between, so that turning something on, off and on again is three changes; what was refused is tried again.
 * Forms need no field for it, and those that can be sent only once (a code, a version) show no refusal of their own work.
 */
export class SentTwice {
  #last: { key: string; answer: Answer; at: number } | null = null;
  #under = new Map<string, Promise<unknown>>();

  /** @param now milliseconds */
  async answer(request: Request, now: number, resolve: () => Promise<Response>): Promise<Response> {
    const key = await keyOf(request);
    if (key === null) return this.#other(await resolve());
    // Sent while the first is still at work: its answer is waited for.
    for (let before = this.#under.get(key); before; before = this.#under.get(key)) await before;
    const last = this.#last;
    if (last?.key === key && now - last.at < MILLISECONDS) return responseOf(last.answer);
    const work = resolve();
    const settled = work.then(
      (response) => this.#heard(key, response, now),
      () => undefined,
    );
    this.#under.set(key, settled);
    try {
      return await work;
    } finally {
      await settled;
      this.#under.delete(key);
    }
  }

  async #heard(key: string, response: Response, now: number): Promise<void> {
    const answer = await doneIn(response);
    if (answer) this.#last = { key, answer, at: now };
    else this.#other(response);
  }

  /** Something else was changed, or may have been: the form before may be sent anew. */
  #other(response: Response): Response {
    if (response.status < 400) this.#last = null;
    return response;
  }
}

/** `null`: not a form as a browser sends it without a file. */
async function keyOf(request: Request): Promise<string | null> {
  const type = request.headers.get('content-type') ?? '';
  if (!type.startsWith('application/x-www-form-urlencoded')) return null;
  const how = `${request.headers.get('x-sveltekit-action') ?? ''} ${request.headers.get('cookie') ?? ''}`;
  const body = Buffer.from(await request.clone().arrayBuffer());
  return createHash('sha256').update(`${request.url}\n${how}\n`).update(body).digest('hex');
}

/** The answer where the form did its work and leads on: a redirect, as a browser or as a script gets it. */
async function doneIn(response: Response): Promise<Answer | null> {
  if (response.headers.has('set-cookie')) return null;
  const leads = response.status === 303;
  const json = response.status === 200 && response.headers.get('content-type')?.startsWith('application/json');
  if (!leads && !json) return null;
  const body = await response.clone().text();
  if (json && !body.startsWith('{"type":"redirect"')) return null;
  return { status: response.status, headers: [...response.headers], body };
}

const responseOf = ({ status, headers, body }: Answer): Response =>
  new Response(body === '' ? null : body, { status, headers });
