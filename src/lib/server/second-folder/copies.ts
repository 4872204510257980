import { realpath, stat } from 'node:fs/promises';
import { isAbsolute, join, relative } from 'node:path';
import { z } from 'zod';
import { backupPieces } from '../backup';
import { saidOf } from '../storage/disk/disk-words';
import { removeDurably, replaceDurably } from '../storage/disk/durable';
import { keyIn } from '../storage/disk/sealed';
import { readText } from '../storage/disk/text-file';
import { StorageError, type Everything, type SecondFolder } from '../storage/port';
import { bringCopiesUnder, copiesIn, copyPath, forgetInCopies, thinCopies } from './copy-files';
import { isUnder, lockOf, piecesUnder, type Lock } from './encrypted-copy';

const stateSchema = z.strictObject({
  folder: z.string(),
  /** Cases that were erased everywhere and may still be in a copy: the folder may be on a drive that is not there. */
  toForget: z.array(z.string()),
});

/** What the copies are made of. */
export type Source = {
  readable(): { everything: Everything; missing: string[] };
  has(caseId: string): boolean;
  months(): number;
};

const PAUSE_MS = 60_000;
const within = (outer: string, inner: string): boolean => {
  const way = relative(outer, inner);
  return way === '' || (!way.startsWith('..') && !isAbsolute(way));
};

/**
 * Copies of the whole record in a folder of the surgeon's choice, on another disk at best: a full backup a day, written anew
 * within a minute of a change and at the end, each of them restored by itself into an empty record. Thinned out as the
 * backups are. Nobody waits for a copy; that one could not be written is told.
 */
export class Copies {
  #copiedAt: string | null = null;
  #problem: string | null = null;
  #otherForm = 0;
  #timer: NodeJS.Timeout | null = null;
  #pass: Promise<void> = Promise.resolve();
  #state: z.infer<typeof stateSchema> | null = null;

  private constructor(
    private readonly place: string,
    private readonly source: Source,
  ) {}

  /** A state that cannot be read is said, and nothing is copied: where to is not known. */
  static async open(place: string, source: Source): Promise<Copies> {
    const copies = new Copies(place, source);
    try {
      copies.#state = stateSchema.parse(JSON.parse(await readText(copies.#statePath)));
      copies.changed();
      if ((await copies.#inOtherForm()) > 0) void copies.#now(); // the record was encrypted, or made plain again
    } catch (why) {
      if ((why as NodeJS.ErrnoException).code !== 'ENOENT')
        copies.#problem = `${copies.#statePath} cannot be read, so nothing is copied. Choose the folder again.`;
    }
    return copies;
  }

  status(): SecondFolder | null {
    const { folder, toForget } = this.#state ?? { folder: null, toForget: [] };
    if (folder === null && this.#problem === null) return null;
    return {
      folder,
      copiedAt: this.#copiedAt,
      problem: this.#problem,
      toForget: toForget.length,
      encrypted: keyIn(this.place)?.writes ?? false,
      otherForm: this.#otherForm,
    };
  }

  /** @param folder absolute, there, and without copies of a record; `null`: no more copies, and those made stay */
  async choose(folder: string | null): Promise<void> {
    if (folder !== null && folder === this.#state?.folder) return this.#now();
    if (this.#state && this.#state.toForget.length > 0)
      throw new StorageError(
        'in-use',
        `Cases that were erased are still in copies in ${this.#state.folder}. Make that folder reachable first, so that they can be taken out.`,
      );
    if (folder === null) {
      await removeDurably(this.#statePath);
      [this.#state, this.#problem, this.#copiedAt] = [null, null, null];
      return;
    }
    await this.#refuse(folder);
    const before = [this.#state, this.#problem, this.#copiedAt] as const;
    this.#state = { folder, toForget: [] };
    await this.#now();
    if (this.#problem === null) return this.#store();
    const said = this.#problem;
    [this.#state, this.#problem, this.#copiedAt] = before;
    throw new StorageError('disk', `${said} Choose another folder.`);
  }

  /** Something was stored: a copy is due. */
  changed(): void {
    if (!this.#state || this.#timer) return;
    this.#timer = setTimeout(() => void this.#now(), PAUSE_MS);
    this.#timer.unref();
  }

  /** Before these cases are erased: what must be taken out of copies is known, whatever happens then. */
  async forgetting(ids: Iterable<string>): Promise<void> {
    if (!this.#state) return;
    this.#state = { ...this.#state, toForget: [...this.#state.toForget, ...ids] };
    await this.#store();
  }

  async close(): Promise<void> {
    if (this.#timer) await this.#now();
    await this.#pass;
  }

  /** Where the folder is away that is not known before it is there again. */
  async #inOtherForm(): Promise<number> {
    const lock = await lockOf(this.place);
    let other = 0;
    for (const { path } of await copiesIn(this.#state?.folder ?? '').catch(() => []))
      if (!(await isUnder(lock, path))) other += 1;
    return (this.#otherForm = other);
  }

  get #statePath() {
    return join(this.place, 'second-folder.json');
  }

  #store = async (): Promise<void> => {
    await replaceDurably(this.#statePath, JSON.stringify(this.#state));
  };

  #now(): Promise<void> {
    if (this.#timer) clearTimeout(this.#timer);
    this.#timer = null;
    return (this.#pass = this.#pass.then(() => this.#copy()));
  }

  async #copy(): Promise<void> {
    if (!this.#state) return;
    const { folder } = this.#state;
    try {
      const { everything, missing } = this.source.readable();
      const lock = await lockOf(this.place);
      await this.#forget(folder, lock);
      if (missing.length > 0)
        throw new StorageError('unreadable', 'Nothing is copied while a file of the record cannot be read.');
      const now = new Date().toISOString();
      await replaceDurably(copyPath(folder, now.slice(0, 10), lock), piecesUnder(lock, backupPieces(everything)));
      [this.#copiedAt, this.#problem] = [now, null];
      this.#otherForm = await bringCopiesUnder(lock, keyIn(this.place)?.data ?? null, folder);
      await thinCopies(folder, this.source.months());
    } catch (why) {
      this.#problem = why instanceof StorageError ? why.message : `No copy could be written. ${saidOf(why)}.`;
    }
  }

  async #forget(folder: string, lock: Lock | null): Promise<void> {
    const gone = new Set(this.#state?.toForget.filter((id) => !this.source.has(id)));
    await forgetInCopies(gone, lock, keyIn(this.place)?.data ?? null, folder);
    if (!this.#state || this.#state.toForget.length === 0) return;
    this.#state = {
      ...this.#state,
      toForget: this.#state.toForget.filter((id) => !gone.has(id) && !this.source.has(id)),
    };
    await this.#store();
  }

  /** @throws StorageError `invalid`, saying what is wrong with the folder */
  async #refuse(folder: string): Promise<void> {
    const refuse = (why: string) => {
      throw new StorageError('invalid', `${why} Nothing was changed.`);
    };
    if (!isAbsolute(folder)) refuse('Write the whole path of the folder, from its drive or the root on.');
    const real = await realpath(folder).catch(() => refuse('There is no such folder; make it first.'));
    if (!(await stat(folder)).isDirectory()) refuse('That is a file, not a folder.');
    const own = await realpath(this.place);
    if (within(own, String(real)) || within(String(real), own))
      refuse('That folder lies in the data folder, or around it. A copy helps where it lies elsewhere.');
    if ((await copiesIn(folder)).length > 0)
      refuse('There are copies of a record in that folder already. Choose one without, so that none of them is lost.');
  }
}
