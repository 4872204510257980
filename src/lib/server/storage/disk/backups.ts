import { readdir, unlink } from 'node:fs/promises';
import { join } from 'node:path';
import { setImmediate } from 'node:timers/promises';
import { z } from 'zod';
import { isDocumentName, kindOf, type DocumentName } from '../documents';
import { StorageError } from '../port';
import type { Backups, Forgotten } from '../shelf';
import { withoutCases } from '../without-cases';
import { keptOf, wholeMoments } from './backup-times';
import { fromText, toText, type Versions } from './document-text';
import { isLeftover, removeDurably, replaceDurably } from './durable';
import { foldersIn } from './folder';
import { asideIn, stampOf } from './put-aside';
import { NotOpened } from './sealed';
import { readText } from './text-file';

/** `contents` tells which documents there were. */
export type Backed = DocumentName | 'contents';

const stampShape = /^(\d{4}-\d\d-\d\dT\d\d)-(\d\d)-(\d\d)-(\d{3}Z)\.json$/;
const momentIn = (file: string): number => Date.parse(file.replace(stampShape, '$1:$2:$3.$4'));
const stamped = (at: number) => stampOf(new Date(at));

/** Drafts change at every pause in typing; a file that nobody has confirmed yet must not be left lying about. */
export const leavesBackup = (name: Backed, before: object): boolean =>
  name !== 'drafts' && !('state' in before && before.state === 'held');

/** Does it matter to an earlier state of the record that there was this document? An import says itself when it was made. */
export const isCounted = (name: DocumentName): boolean => name !== 'drafts' && kindOf(name) !== 'imports';

/** Kinds that hold something of single cases. */
export const holdsCases = (name: Backed): boolean => /^(cases|reflections|imports)\//.test(name);

/** `null` for an encrypted file that does not open: what is in it is not known. */
const textOrClosed = (path: string): Promise<string | null> =>
  readText(path).catch((why: unknown) => (why instanceof NotOpened ? null : ''));

const contentsShape = z.looseObject({ documents: z.array(z.string().refine(isDocumentName)) });

/**
 * Earlier versions of each file, as second names of what stood there before: `backups/<document>/<moment>.json`. What is
 * stamped with a moment stood just before the change of that moment. The names are not flushed: a power cut may cost the
 * newest of them, never what was saved.
 */
export class DiskBackups implements Backups {
  readonly #times = new Map<Backed, number[]>();
  #last = 0;
  private readonly folder: string;

  private constructor(
    private readonly place: string,
    private readonly versions: Versions,
  ) {
    this.folder = join(place, 'backups');
  }

  static async open(place: string, versions: Versions): Promise<DiskBackups> {
    const backups = new DiskBackups(place, versions);
    await backups.#list('', true);
    return backups;
  }

  /** By reading alone. */
  static async look(place: string, versions: Versions): Promise<DiskBackups> {
    const backups = new DiskBackups(place, versions);
    await backups.#list('', false);
    return backups;
  }

  /** Reads every backup. */
  async tried(): Promise<{ count: number; unreadable: string[] }> {
    const unreadable: string[] = [];
    let count = 0;
    for (const [name, times] of this.#times)
      for (const at of times) {
        count += 1;
        const read = name === 'contents' ? this.#contents(at) : this.#read(name, at);
        if ((await read.catch((why: unknown) => why)) instanceof Error) unreadable.push(this.pathOf(name, at));
      }
    return { count, unreadable };
  }

  /** The moment of a change: later than that of any other, whatever the clock says. */
  moment(): number {
    return (this.#last = Math.max(Date.now(), this.#last + 1));
  }

  /** The moment of a change that is done again: what has been left since its journal was written was left by itself. */
  momentAgain(began: number): number {
    return (this.#last = Math.max(began, this.#last));
  }

  pathOf(name: Backed, at: number): string {
    return join(this.folder, name, `${stamped(at)}.json`);
  }

  /** Takes note that one was left. */
  left(name: Backed, at: number): void {
    const times = this.#times.get(name) ?? [];
    if (times.at(-1) !== at) this.#times.set(name, [...times, at]);
  }

  /** Removes what need not be kept any longer. One that cannot be removed is tried again another day. */
  async thin(months: number, names: Iterable<Backed> = this.#times.keys(), now = Date.now()): Promise<void> {
    for (const name of names) {
      const times = this.#times.get(name) ?? [];
      const kept = keptOf(times, now, months);
      for (const at of times) if (!kept.has(at)) await this.#drop(name, at).catch(() => {});
    }
  }

  moments(months: number) {
    const changed = new Map<number, DocumentName[]>();
    for (const [name, times] of this.#times)
      for (const at of times) {
        const names = changed.get(at) ?? [];
        changed.set(at, name === 'contents' ? names : [...names, name]);
      }
    return wholeMoments([...this.#times.values()], Date.now(), months).map((at) => ({
      at: new Date(at).toISOString(),
      names: changed.get(at) ?? [],
    }));
  }

  async before(iso: string, current: Iterable<DocumentName>) {
    const at = Date.parse(iso);
    const then = new Map<DocumentName, object | StorageError | null>();
    const thatStood = this.#since('contents', at);
    const there = thatStood === undefined ? null : await this.#contents(thatStood);
    for (const name of new Set([...current, ...(there ?? [])])) {
      const since = this.#since(name, at);
      if (there && !there.has(name) && isCounted(name)) then.set(name, null);
      else if (since !== undefined) then.set(name, await this.#read(name, since));
      await setImmediate();
    }
    return then;
  }

  async newestGood(name: DocumentName) {
    for (const at of [...(this.#times.get(name) ?? [])].reverse()) {
      const document = await this.#read(name, at);
      if (!(document instanceof StorageError)) return { at: new Date(at).toISOString(), document };
    }
    return null;
  }

  /**
   * Takes cases out of every backup that holds anything of them. What holds something of them and cannot be read goes: a
   * backup, or a copy that was put aside.
   */
  async forget(gone: Forgotten): Promise<void> {
    for (const [name, times] of this.#times)
      for (const at of times) {
        if (name === 'contents' || !holdsCases(name)) continue;
        const path = this.pathOf(name, at);
        const text = await textOrClosed(path);
        if (text !== null && ![...gone.keys()].some((id) => text.includes(`"${id}"`))) continue;
        const document = await this.#read(name, at);
        if (document instanceof StorageError) await this.#drop(name, at);
        else await replaceDurably(path, toText(withoutCases(name, document, gone), this.versions));
      }
    for (const path of await this.setAside()) {
      const text = await textOrClosed(path);
      if (
        text === null ||
        [...gone].some(([id, code]) => text.includes(`"${id}"`) || text.includes(`"code":${JSON.stringify(code)}`))
      )
        await removeDurably(path);
    }
  }

  setAside = () => asideIn(foldersIn(this.place));

  async dropSetAside(): Promise<void> {
    for (const path of await this.setAside()) await removeDurably(path);
  }

  #since = (name: Backed, at: number) => this.#times.get(name)?.find((each) => each >= at);

  async #read(name: DocumentName, at: number): Promise<object | StorageError> {
    const path = this.pathOf(name, at);
    try {
      return fromText(await readText(path), kindOf(name), this.versions);
    } catch (why) {
      return new StorageError('unreadable', `The backup ${path} cannot be read: ${(why as Error).message}.`);
    }
  }

  async #contents(at: number): Promise<ReadonlySet<DocumentName>> {
    const path = this.pathOf('contents', at);
    try {
      return new Set(contentsShape.parse(JSON.parse(await readText(path))).documents);
    } catch (why) {
      throw new StorageError(
        'unreadable',
        `The backup ${path} cannot be read, so it is not known which files there were: ${(why as Error).message}. Nothing was changed.`,
      );
    }
  }

  async #drop(name: Backed, at: number): Promise<void> {
    await unlink(this.pathOf(name, at)).catch((why: NodeJS.ErrnoException) => {
      if (why.code !== 'ENOENT') throw why;
    });
    this.#times.set(
      name,
      (this.#times.get(name) ?? []).filter((each) => each !== at),
    );
  }

  async #list(name: string, sweeps: boolean): Promise<void> {
    const entries = await readdir(join(this.folder, name), { withFileTypes: true }).catch(
      (why: NodeJS.ErrnoException) => {
        if (why.code === 'ENOENT') return [];
        throw why;
      },
    );
    const times: number[] = [];
    for (const entry of entries) {
      if (entry.isDirectory()) await this.#list(name === '' ? entry.name : `${name}/${entry.name}`, sweeps);
      else if (isLeftover(entry.name)) {
        if (sweeps) await unlink(join(this.folder, name, entry.name));
      } else if (stampShape.test(entry.name)) times.push(momentIn(entry.name));
    }
    if (times.length === 0 || !(name === 'contents' || isDocumentName(name))) return;
    this.#times.set(
      name,
      times.sort((a, b) => a - b),
    );
    this.#last = Math.max(this.#last, ...times);
  }
}
