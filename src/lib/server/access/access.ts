import {
  changePassphrase,
  keyFor,
  LEAST_LETTERS,
  MOST_LETTERS,
  passphraseOf,
  readPassphrase,
  COST,
  type Passphrase,
} from './passphrase';
import type { DataKey } from '../storage/disk/sealed';
import { Sessions } from './sessions';
import { Tries } from './tries';

/** How far the server can be reached, as `run/serve.js` says: this computer alone, or others, plainly or encrypted. */
export type Reach = 'loopback' | 'http' | 'https';
export const reachIn = ({ NEXT_TWENTY_REACH: reach }: NodeJS.ProcessEnv): Reach =>
  reach === 'http' || reach === 'https' ? reach : 'loopback';

export type Refused = { field: 'passphrase' | 'again' | 'old'; message: string };

const WRONG = 'This is not the passphrase.';
const CHANGED = 'The passphrase was changed meanwhile, in another window. Nothing was changed here; try again.';
const waitWords = (seconds: number) =>
  `Too many tries. Wait ${seconds < 90 ? `${seconds} seconds` : `${Math.ceil(seconds / 60)} minutes`}, then try again.`;

/** Who may ask this server for anything: everybody on this computer until a passphrase is set, then who knows it. */
export class Access {
  readonly #sessions = new Sessions();
  readonly #tries = new Tries();

  private constructor(
    private readonly folder: string,
    readonly reach: Reach,
    private file: Passphrase | null,
    private readonly cost: number,
  ) {}

  /** @throws StorageError where the passphrase is there and cannot be read */
  static async at(folder: string, reach: Reach, cost = COST): Promise<Access> {
    return new Access(folder, reach, await readPassphrase(folder), cost);
  }

  /** Beyond this computer nobody is let in without one, whatever became of the file. */
  get asks(): boolean {
    return this.file !== null || this.reach !== 'loopback';
  }

  /** Whether the files of the record are encrypted, or on their way to it or back. */
  get files(): Passphrase['files'] {
    return this.file?.files ?? 'plain';
  }

  /** What stands in the folder now: a change from plain to encrypted files, or back, is written down by who makes it. */
  async reload(): Promise<void> {
    this.file = await readPassphrase(this.folder);
  }

  letsIn(token: string | undefined, now: number): boolean {
    return !this.asks || this.#sessions.sees(token, now);
  }

  /** @returns the token of a new session and the key of the record, or why not */
  async signIn(
    text: string,
    address: string,
    now: number,
  ): Promise<{ token: string; data: DataKey; refused: null } | { refused: Refused }> {
    const data = await this.#keyOf(text, address, now, 'passphrase');
    if ('refused' in data) return data;
    return { token: this.#sessions.begin(now), data, refused: null };
  }

  /** Sets the first passphrase, or changes it, which asks for the old one and signs everybody out. */
  async set(
    typed: { old: string; text: string; again: string },
    address: string,
    now: number,
  ): Promise<{ token: string; refused: null } | { refused: Refused }> {
    const { old, text, again } = typed;
    if ([...text].length < LEAST_LETTERS)
      return refused(
        'passphrase',
        `At least ${LEAST_LETTERS} characters: several words that belong together only for you.`,
      );
    if (text.length > MOST_LETTERS) return refused('passphrase', `At most ${MOST_LETTERS} characters.`);
    if (text !== again) return refused('again', 'The two are not the same. Type it twice.');
    const asked = this.file;
    let data: DataKey | null = null;
    if (asked) {
      const found = await this.#keyOf(old, address, now, 'old');
      if ('refused' in found) return found;
      data = found;
    }
    const made = await passphraseOf(text, data, this.cost);
    const why = await this.#change(asked, (now) => ({ ...made, files: now?.files ?? 'plain' }));
    if (why) return refused('passphrase', why);
    this.#sessions.endAll();
    return { token: this.#sessions.begin(now), refused: null };
  }

  /** Takes the passphrase away: this computer alone may ask again. */
  async remove(old: string, address: string, now: number): Promise<Refused | null> {
    if (this.reach !== 'loopback')
      return refused(
        'old',
        'Other computers can reach this server, so the passphrase stays. Start it without HOST first.',
      ).refused;
    const asked = this.file;
    const found = await this.#keyOf(old, address, now, 'old');
    if ('refused' in found) return found.refused;
    const why = await this.#change(asked, (file) => (file?.files === 'plain' ? null : file));
    if (why) return refused('old', why).refused;
    if (this.file) return refused('old', 'The folder is encrypted with it. Switch the encryption off first.').refused;
    this.#sessions.endAll();
    return null;
  }

  /**
   * Decides that the files are to be encrypted, or plain again: written down before the first of them is touched, and from
   * then on only forward. The record has to be opened again to be so.
   */
  async turn(
    to: 'sealing' | 'opening',
    text: string,
    address: string,
    now: number,
  ): Promise<{ data: DataKey; refused: null } | { refused: Refused }> {
    const asked = this.file;
    const data = await this.#keyOf(text, address, now, 'old');
    if ('refused' in data) return data;
    const why = await this.#change(asked, (file) => file && { ...file, files: to });
    return why ? refused('old', why) : { data, refused: null };
  }

  signOut(token: string | undefined): void {
    this.#sessions.end(token);
  }

  signOutEverywhere(): void {
    this.#sessions.endAll();
  }

  /**
   * Written only where the passphrase is still the one that was asked for: finding a key takes half a second, and another
   * window may have changed or removed it meanwhile.
   * @returns why nothing was changed
   */
  async #change(
    asked: Passphrase | null,
    change: (now: Passphrase | null) => Passphrase | null,
  ): Promise<string | null> {
    let other = false;
    this.file = await changePassphrase(this.folder, (now) => {
      other = now?.check !== asked?.check;
      return other ? now : change(now);
    });
    return other ? CHANGED : null;
  }

  async #keyOf(
    text: string,
    address: string,
    now: number,
    field: 'passphrase' | 'old',
  ): Promise<DataKey | { refused: Refused }> {
    const seconds = this.#tries.wait(address, now);
    if (seconds > 0) return refused(field, waitWords(seconds));
    if (!this.file || text === '' || text.length > MOST_LETTERS) return refused(field, WRONG);
    this.#tries.begin(address, now);
    const data = await keyFor(this.file, text);
    if (!data) return refused(field, WRONG);
    this.#tries.right(address);
    return data;
  }
}

const refused = (field: Refused['field'], message: string): { refused: Refused } => ({ refused: { field, message } });
