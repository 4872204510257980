import { createRequire, syncBuiltinESMExports } from 'node:module';
import { basename, dirname, join } from 'node:path';
import type { FileHandle } from 'node:fs/promises';

/** What a program asks of a disk, as far as it changes something. */
export type Call = 'open' | 'write' | 'sync' | 'sync-folder' | 'rename' | 'link' | 'unlink' | 'mkdir' | 'copy';

/** A line of what happened. `names`: one step in a folder, all of it or nothing; `null`: that name is gone. */
type Line =
  | { kind: 'names'; folder: string; step: [name: string, file: number | null][] }
  | { kind: 'text'; file: number; text: string }
  | { kind: 'synced'; file: number }
  | { kind: 'synced-folder'; folder: string };

/** Files by path. */
export type Tree = ReadonlyMap<string, string>;

type Fsp = typeof import('node:fs/promises');
const fsp = createRequire(import.meta.url)('node:fs/promises') as Fsp;
const real = { ...fsp };

export const refused = (code: string, path: string) => Object.assign(new Error(`${code}: refused`), { code, path });

/**
 * Between the program and the disk, under one folder: notes every step that changes something, and refuses calls where it is
 * told to. No root is needed, and no file system of its own: `node:fs/promises` is put in another form for as long as it
 * stands.
 */
export class FakeDisk {
  readonly log: Line[] = [];
  /** How many calls there were. */
  calls = 0;
  /** The code to refuse a call with, or `null`. */
  refuse: (call: Call, path: string, number: number) => string | null = () => null;
  #files = new Map<string, number>();
  #next = 0;

  constructor(private readonly under: string) {
    const mine = (path: unknown): path is string => typeof path === 'string' && path.startsWith(this.under);
    Object.assign(fsp, {
      open: async (...args: Parameters<Fsp['open']>) => {
        const [path, flags] = args;
        if (!mine(path)) return real.open(...args);
        if (String(flags).includes('w')) {
          this.#ask('open', path);
          const handle = await real.open(...args);
          this.#named(path, this.#new());
          return this.#watched(handle, path);
        }
        const handle = await real.open(...args);
        const { sync } = handle;
        handle.sync = async () => {
          this.#ask('sync-folder', path);
          await sync.apply(handle);
          this.log.push({ kind: 'synced-folder', folder: path });
        };
        return handle;
      },
      rename: async (from: string, to: string) => {
        if (!mine(from)) return real.rename(from, to);
        this.#ask('rename', to);
        await real.rename(from, to);
        const file = this.#at(from);
        this.#files.delete(from);
        this.#files.set(to, file);
        if (dirname(from) === dirname(to))
          this.#step(dirname(to), [
            [basename(from), null],
            [basename(to), file],
          ]);
        else {
          this.#step(dirname(to), [[basename(to), file]]);
          this.#step(dirname(from), [[basename(from), null]]);
        }
      },
      link: async (from: string, to: string) => {
        if (!mine(from)) return real.link(from, to);
        this.#ask('link', to);
        await real.link(from, to);
        this.#named(to, this.#at(from));
      },
      unlink: async (path: string) => {
        if (!mine(path)) return real.unlink(path);
        this.#ask('unlink', path);
        await real.unlink(path);
        this.#files.delete(path);
        this.#step(dirname(path), [[basename(path), null]]);
      },
      mkdir: async (...args: Parameters<Fsp['mkdir']>) => {
        if (mine(args[0])) this.#ask('mkdir', args[0]);
        return real.mkdir(...args);
      },
      copyFile: async (...args: Parameters<Fsp['copyFile']>) => {
        const [from, to] = args;
        if (!mine(from) || !mine(to)) return real.copyFile(...args);
        this.#ask('copy', to);
        await real.copyFile(...args);
        const file = this.#new();
        this.#named(to, file);
        this.log.push({ kind: 'text', file, text: await real.readFile(to, 'utf8') });
      },
    });
    syncBuiltinESMExports();
  }

  /** The disk is as it was. */
  remove(): void {
    Object.assign(fsp, real);
    syncBuiltinESMExports();
  }

  /**
   * Every state that a cut after `line` lines may leave: of each folder, any number of the steps since it was last synced, in
   * their order; of each file, what was written since it was last synced, not at all, by half or whole. The names of backups
   * are never synced, and go together: none or all of them.
   */
  *after(line: number): Generator<Tree> {
    const texts = new Map<number, { synced: string; written: string }>();
    const folders = new Map<
      string,
      { synced: Map<string, number>; since: Extract<Line, { kind: 'names' }>['step'][] }
    >();
    const folderOf = (path: string) => {
      const folder = folders.get(path) ?? { synced: new Map<string, number>(), since: [] };
      folders.set(path, folder);
      return folder;
    };
    for (const each of this.log.slice(0, line)) {
      if (each.kind === 'names') folderOf(each.folder).since.push(each.step);
      else if (each.kind === 'synced-folder') {
        const folder = folderOf(each.folder);
        for (const step of folder.since.splice(0)) stepped(folder.synced, step);
      } else if (each.kind === 'text')
        texts.set(each.file, { synced: texts.get(each.file)?.synced ?? '', written: each.text });
      else {
        const text = texts.get(each.file);
        if (text) text.synced = text.written;
      }
    }
    const isBackup = (path: string) => path.startsWith(join(this.under, 'backups'));
    const choices = [...folders].filter(([path]) => !isBackup(path));
    const backups = [...folders].filter(([path]) => isBackup(path));
    const textOf = (file: number, share: number) => {
      const { synced, written } = texts.get(file) ?? { synced: '', written: '' };
      return synced + written.slice(synced.length, synced.length + Math.ceil((written.length - synced.length) * share));
    };
    const seen = new Set<string>();
    for (const prefix of prefixes(choices.map(([, { since }]) => since.length)))
      for (const all of backups.some(([, { since }]) => since.length > 0) ? [false, true] : [false])
        for (const share of [0, 0.5, 1]) {
          const tree = new Map<string, string>();
          const lay = (
            path: string,
            folder: { synced: Map<string, number>; since: Extract<Line, { kind: 'names' }>['step'][] },
            steps: number,
          ) => {
            const names = new Map(folder.synced);
            for (const step of folder.since.slice(0, steps)) stepped(names, step);
            for (const [name, file] of names)
              tree.set(join(path, name).slice(this.under.length + 1), textOf(file, share));
          };
          for (const [at, [path, folder]] of choices.entries()) lay(path, folder, prefix[at] ?? 0);
          for (const [path, folder] of backups) lay(path, folder, all ? folder.since.length : 0);
          const key = JSON.stringify([...tree].sort());
          if (seen.has(key)) continue;
          seen.add(key);
          yield tree;
        }
  }

  #ask(call: Call, path: string): void {
    this.calls += 1;
    const code = this.refuse(call, path, this.calls);
    if (code !== null) throw refused(code, path);
  }

  #new = () => (this.#next += 1);

  #at(path: string): number {
    const file = this.#files.get(path);
    if (file === undefined) throw new Error(`${path} was there before the fake disk`);
    return file;
  }

  #named(path: string, file: number): void {
    this.#files.set(path, file);
    this.#step(dirname(path), [[basename(path), file]]);
  }

  #step(folder: string, step: [string, number | null][]): void {
    this.log.push({ kind: 'names', folder, step });
  }

  #watched(handle: FileHandle, path: string): FileHandle {
    const file = this.#at(path);
    let text = '';
    const { writeFile, sync } = handle;
    handle.writeFile = async (data, ...rest) => {
      const code = this.#code('write', path);
      // As a disk does that fills on the way.
      const piece = code === null ? String(data) : String(data).slice(0, 10);
      await writeFile.call(handle, piece, ...rest);
      text += piece;
      this.log.push({ kind: 'text', file, text });
      if (code !== null) throw refused(code, path);
    };
    handle.sync = async () => {
      this.#ask('sync', path);
      await sync.apply(handle);
      this.log.push({ kind: 'synced', file });
    };
    return handle;
  }

  #code(call: Call, path: string): string | null {
    this.calls += 1;
    return this.refuse(call, path, this.calls);
  }
}

function stepped(names: Map<string, number>, step: readonly [string, number | null][]): void {
  for (const [name, file] of step)
    if (file === null) names.delete(name);
    else names.set(name, file);
}

/** All ways of taking 0 to n of each. */
function* prefixes(lengths: readonly number[]): Generator<number[]> {
  const [length, ...rest] = lengths;
  if (length === undefined) {
    yield [];
    return;
  }
  for (const others of prefixes(rest)) for (let taken = 0; taken <= length; taken += 1) yield [taken, ...others];
}
