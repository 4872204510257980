import { createHash, randomBytes } from 'node:crypto';

const MINUTE = 60_000;
/** A computer left alone, and the longest day of work. */
export const IDLE_MINUTES = 30;
const LONGEST = 12 * 60 * MINUTE;
/** More browsers than one surgeon has; the one unseen for longest goes. */
const MOST = 50;

const hashed = (token: string) => createHash('sha256').update(token).digest('hex');

/** Who is signed in, in memory alone: a server that was started again asks everybody. `now` in milliseconds. */
export class Sessions {
  readonly #seen = new Map<string, { since: number; last: number }>();

  /** @returns the token for the cookie; only its hash stays here */
  begin(now: number): string {
    const token = randomBytes(32).toString('base64url');
    this.#seen.set(hashed(token), { since: now, last: now });
    const [oldest] = this.#seen.keys();
    if (this.#seen.size > MOST && oldest !== undefined) this.#seen.delete(oldest);
    return token;
  }

  /** Is this one signed in? Being seen keeps it so. */
  sees(token: string | undefined, now: number): boolean {
    if (!token) return false;
    const id = hashed(token);
    const session = this.#seen.get(id);
    if (!session) return false;
    this.#seen.delete(id);
    if (now - session.last > IDLE_MINUTES * MINUTE || now - session.since > LONGEST) return false;
    this.#seen.set(id, { ...session, last: now }); // at the end: the first is the one unseen for longest
    return true;
  }

  end(token: string | undefined): void {
    if (token) this.#seen.delete(hashed(token));
  }

  endAll(): void {
    this.#seen.clear();
  }
}
