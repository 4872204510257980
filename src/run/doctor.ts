import { resolve } from 'node:path';
import { counted } from '../lib/format';
import { dataFolder } from './data-folder.js';
import { migrations, schemaVersion } from '../lib/server/storage/migrations';
import { keyFor, readPassphrase } from '../lib/server/access/passphrase';
import { examine } from '../lib/server/doctor/examine';
import type { Examined } from '../lib/server/doctor/finding';
import { mend } from '../lib/server/doctor/mend';
import { useKey } from '../lib/server/storage/disk/sealed';
import { askSecret } from './ask-secret';

type Io = {
  userFolder: string;
  out: (text: string) => void;
  err: (text: string) => void;
  secret?: (question: string) => Promise<string>;
};

const USAGE = 'npm run doctor -- [FOLDER] [--mend] [--passphrase]\n';
const FLAGS = ['--mend', '--passphrase'];

/**
 * `doctor`: reads a data folder, changes nothing, and says in words what is wrong and what to do; `--mend` does it, after a
 * copy of the whole folder. `--passphrase` asks for that of an encrypted folder; from a pipe, its first line is taken. Exit code
 * 0: nothing is wrong; 1: something is; 2: a wrong call.
 */
export async function run(args: readonly string[], io: Io): Promise<number> {
  const folders = args.filter((each) => !FLAGS.includes(each));
  if (folders.length > 1 || folders.some((each) => each.startsWith('-'))) {
    io.err(USAGE);
    return 2;
  }
  const folder = folders[0] === undefined ? dataFolder() : resolve(io.userFolder, folders[0]);
  const wrongKey = args.includes('--passphrase') ? await openWith(folder, io) : null;
  if (wrongKey !== null) {
    io.err(`${wrongKey}\n`);
    return 1;
  }
  try {
    return await examined(folder, args.includes('--mend'), io);
  } finally {
    useKey(folder, null, false);
  }
}

/** @returns why the passphrase does not open the folder */
async function openWith(folder: string, io: Io): Promise<string | null> {
  const file = await readPassphrase(folder).catch(() => null);
  if (!file || file.files === 'plain') return null; // what is wrong with it is found with the rest
  const data = await keyFor(file, await (io.secret ?? askSecret)('Passphrase: '));
  if (!data) return 'This is not the passphrase. Nothing was looked at.';
  useKey(folder, data, file.files === 'sealed' || file.files === 'sealing');
  return null;
}

async function examined(folder: string, mending: boolean, io: Io): Promise<number> {
  const versions = { schemaVersion, migrations };
  const found = await examine(folder, versions);
  io.out(told(folder, found, mending));
  const wrong = found.findings.some(({ kind }) => kind === 'wrong');
  if (mending && found.closed) io.err(`Nothing was mended: the folder is encrypted. ${WITH}\n`);
  if (!mending || !found.read) return wrong ? 1 : 0;
  if (found.inUse) {
    io.err('Nothing was mended: a server may have the folder. Stop it first.\n');
    return 1;
  }
  if (!found.findings.some((each) => each.mend)) {
    io.out('Nothing to mend.\n');
    return wrong ? 1 : 0;
  }
  const { copy, done } = await mend(folder, found.findings, versions, new Date().toISOString());
  io.out(`The folder as it was is in ${copy}: delete it once all is well; it holds the record.\n`);
  for (const line of done) io.out(`- ${line}\n`);
  const after = await examine(folder, versions);
  io.out(`\nNow:\n${told(folder, after, true)}`);
  return after.findings.some(({ kind }) => kind === 'wrong') ? 1 : 0;
}

const WITH = '"npm run doctor -- --passphrase" asks for its passphrase.';

function told(folder: string, { findings, read, closed }: Examined, mending: boolean): string {
  if (!read && findings.length === 0) return `There is no folder ${folder} yet: nothing has been stored.\n`;
  const wrong = findings.filter(({ kind }) => kind === 'wrong');
  const notes = findings.filter(({ kind }) => kind === 'note');
  const lines = [
    folder,
    ...(read ? [`${counted(read.documents, 'file')} can be read, with ${counted(read.cases, 'case')}.`] : []),
    wrong.length === 0
      ? closed
        ? `Nothing wrong was found from outside. ${WITH}`
        : 'Nothing is wrong.'
      : `${counted(wrong.length, 'thing')} wrong:`,
    ...wrong.flatMap(({ what, todo, mend: can }) => [
      `- ${what}`,
      ...(todo ? [`  ${todo}`] : []),
      ...(can && !mending ? ['  "npm run doctor -- --mend" does it, after a copy of the folder.'] : []),
    ]),
    ...(notes.length > 0 ? ['Good to know:', ...notes.map(({ what }) => `- ${what}`)] : []),
  ];
  return `${lines.join('\n')}\n`;
}
