import { spawn, type ChildProcess } from 'node:child_process';
import { cp, mkdtemp, readFile, rm, truncate, writeFile } from 'node:fs/promises';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { createInterface } from 'node:readline';

const whenListening = (child: ChildProcess): Promise<string> =>
  new Promise((resolve, reject) => {
    let said = '';
    child.stderr?.on('data', (chunk) => (said += chunk));
    child.once('exit', (code) => reject(new Error(`the server ended with ${code}: ${said}`)));
    if (child.stdout)
      createInterface(child.stdout).on('line', (line) => {
        if (line.startsWith('listening ')) resolve(line.slice('listening '.length));
      });
  });

/** The built app as a person would run it, with a data folder of its own on any free port. */
export class App {
  origin = '';
  #child: ChildProcess | null = null;
  #copies: string[] = [];

  private constructor(readonly folder: string) {}

  static async start(): Promise<App> {
    const app = new App(await mkdtemp(join(tmpdir(), 'next-twenty-app-')));
    await app.run();
    return app;
  }

  /** Starts the server on the folder as it is; the port is another one each time, unless it is said. */
  async run(port = '0'): Promise<void> {
    const child = spawn(process.execPath, [join(process.cwd(), 'src/run/serve.js')], {
      env: { ...process.env, NEXT_TWENTY_DATA: this.folder, PORT: port, NODE_ENV: 'production' },
      stdio: ['ignore', 'pipe', 'pipe'],
    });
    this.#child = child;
    this.origin = await whenListening(child);
    child.stderr?.on('data', (chunk) => process.stderr.write(chunk));
  }

  /** @returns the exit code, once the server has let the folder go */
  async stop(signal: NodeJS.Signals = 'SIGTERM'): Promise<number | null> {
    const child = this.#child;
    if (!child) return null;
    this.#child = null;
    const ended = new Promise<number | null>((resolve) => child.once('exit', resolve));
    child.kill(signal);
    return ended;
  }

  /** A new record: empty, or a copy of this folder. */
  async startEmpty(from?: string): Promise<void> {
    await this.stop();
    await rm(this.folder, { recursive: true, force: true });
    if (from) await cp(from, this.folder, { recursive: true });
    await this.run();
  }

  /** Changes a file of the record while no server holds it; the address stays. */
  async changeFile(name: string, change: (content: unknown) => void): Promise<void> {
    await this.stop();
    const path = join(this.folder, name);
    const content: unknown = JSON.parse(await readFile(path, 'utf8'));
    change(content);
    await writeFile(path, JSON.stringify(content));
    await this.run(new URL(this.origin).port);
  }

  /** Cuts a file of the record short while no server holds it; the address stays. */
  async cutFile(name: string): Promise<void> {
    await this.stop();
    await truncate(join(this.folder, name), 20);
    await this.run(new URL(this.origin).port);
  }

  /** The record as it stands, copied aside while no server holds it; goes with `remove`. */
  async copyOfFolder(): Promise<string> {
    const copy = await mkdtemp(join(tmpdir(), 'next-twenty-copy-'));
    this.#copies.push(copy);
    await this.stop();
    await cp(this.folder, copy, { recursive: true });
    await this.run();
    return copy;
  }

  async remove(): Promise<void> {
    await this.stop();
    for (const folder of [this.folder, ...this.#copies]) await rm(folder, { recursive: true, force: true });
  }
}
