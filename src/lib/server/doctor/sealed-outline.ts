import { lstat, readFile } from 'node:fs/promises';
import { join } from 'node:path';
import type { Passphrase } from '../access/passphrase';
import { keyOutside } from '../storage/disk/sealed';
import { filesIn } from '../storage/disk/switch-files';
import type { Finding } from './finding';

/** What can be told of the files of an encrypted folder without its key: whose they are, and whether they are long enough. */
export async function outlineOf(folder: string, { keyId, files }: Passphrase): Promise<Finding[]> {
  const findings: Finding[] = [];
  let plain = 0;
  const names = await filesIn(folder);
  for (const name of names) {
    const path = join(folder, name);
    if (!(await lstat(path)).isFile()) continue;
    const outside = keyOutside(await readFile(path));
    if (outside === null) plain += 1;
    else if (outside !== keyId)
      findings.push({
        kind: 'wrong',
        what: `${name} is ${outside === 'short' ? 'encrypted and cut short' : 'encrypted with the key of another record'}.`,
        todo: 'With the passphrase, --mend takes its newest good backup where there is one.',
      });
  }
  if (files === 'sealed' && plain > 0)
    findings.push({
      kind: 'note',
      what: `${plain} of ${names.length} files are plain: whoever put them there did it outside of this program.`,
    });
  return findings;
}

export const BROKEN_OFF: Finding = {
  kind: 'note',
  what: 'The files were being encrypted, or made plain again, when the program ended. Each is whole, in one form or the other; whoever signs in next has it finished.',
};

export const CLOSED: Finding = {
  kind: 'note',
  what: 'The folder is encrypted. Without its passphrase only names, sizes and owners of files were looked at, nothing in them; "npm run doctor -- --passphrase" asks for it. A lost passphrase cannot be brought back by anybody.',
};
