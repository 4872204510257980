const FREE = 4;
const LONGEST = 15 * 60_000;
const FORGOTTEN = 24 * 60 * 60_000;
/** Addresses remembered; one machine can have many, so all together are held back as well. */
const MOST = 1000;
const FREE_TOGETHER = 40;
const ALL = 'all';

/**
 * Holds guessing back: after four wrong passphrases from one address each further one doubles the wait, up to a quarter of
 * an hour; forty from all addresses together do the same to everybody. `now` in milliseconds.
 */
export class Tries {
  readonly #wrong = new Map<string, { count: number; until: number; last: number }>();

  /** @returns seconds to wait before another try is looked at; 0: none */
  wait(address: string, now: number): number {
    const until = Math.max(this.#of(address, now).until, this.#of(ALL, now).until);
    return Math.max(0, Math.ceil((until - now) / 1000));
  }

  /** Counted before the passphrase is looked at, so that many sent at once are counted too. */
  begin(address: string, now: number): void {
    for (const [name, free] of [
      [address, FREE],
      [ALL, FREE_TOGETHER],
    ] as const) {
      const count = this.#of(name, now).count + 1;
      const until = count < free ? 0 : now + Math.min(LONGEST, 1000 * 2 ** Math.min(count - free, 20));
      this.#wrong.delete(name);
      this.#wrong.set(name, { count, until, last: now });
    }
    for (const name of this.#wrong.keys()) {
      if (this.#wrong.size <= MOST) break;
      if (name !== ALL) this.#wrong.delete(name);
    }
  }

  right(address: string): void {
    this.#wrong.delete(address);
    this.#wrong.delete(ALL);
  }

  #of(name: string, now: number) {
    const known = this.#wrong.get(name);
    return known && now - known.last < FORGOTTEN ? known : { count: 0, until: 0, last: now };
  }
}
