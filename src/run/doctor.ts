import { resolve } from 'node:path';
import { counted } from '../lib/format';
import { dataFolder } from './data-folder.js';
import { migrations, schemaVersion } from '../lib/server/storage/migrations';
import { examine, type Examined } from '../lib/server/doctor/examine';
import { mend } from '../lib/server/doctor/mend';

type Io = { userFolder: string; out: (text: string) => void; err: (text: string) => void };

const USAGE = 'npm run doctor -- [FOLDER] [--mend]\n';

/**
 * `doctor`: reads a data folder, changes nothing, and says in words what is wrong and what to do; `--mend` does it, after a
 * copy of the whole folder. Exit code 0: nothing is wrong; 1: something is; 2: a wrong call.
 */
export async function run(args: readonly string[], io: Io): Promise<number> {
  const folders = args.filter((each) => each !== '--mend');
  if (folders.length > 1 || folders.some((each) => each.startsWith('-'))) {
    io.err(USAGE);
    return 2;
  }
  const folder = folders[0] === undefined ? dataFolder() : resolve(io.userFolder, folders[0]);
  const versions = { schemaVersion, migrations };
  const found = await examine(folder, versions);
  io.out(told(folder, found, args.includes('--mend')));
  const wrong = found.findings.some(({ kind }) => kind === 'wrong');
  if (!args.includes('--mend') || !found.read) return wrong ? 1 : 0;
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

function told(folder: string, { findings, read }: Examined, mending: boolean): string {
  if (!read && findings.length === 0) return `There is no folder ${folder} yet: nothing has been stored.\n`;
  const wrong = findings.filter(({ kind }) => kind === 'wrong');
  const notes = findings.filter(({ kind }) => kind === 'note');
  const lines = [
    folder,
    ...(read ? [`${counted(read.documents, 'file')} can be read, with ${counted(read.cases, 'case')}.`] : []),
    wrong.length === 0 ? 'Nothing is wrong.' : `${counted(wrong.length, 'thing')} wrong:`,
    ...wrong.flatMap(({ what, todo, mend: can }) => [
      `- ${what}`,
      ...(todo ? [`  ${todo}`] : []),
      ...(can && !mending ? ['  "npm run doctor -- --mend" does it, after a copy of the folder.'] : []),
    ]),
    ...(notes.length > 0 ? ['Good to know:', ...notes.map(({ what }) => `- ${what}`)] : []),
  ];
  return `${lines.join('\n')}\n`;
}
