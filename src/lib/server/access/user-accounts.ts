import { readdir, readFile } from 'node:fs/promises';
import { join } from 'node:path';

/** Folders of Windows and macOS that belong to nobody. */
const NOBODYS =
  /^(\..*|shared|guest|public|default|default user|all users|defaultapppool|desktop\.ini|wdagutilityaccount)$/i;

/** Accounts of people in a `passwd` file: numbers from 1000 up (as Linux distributions give them), and a shell to log in. */
export const peopleIn = (passwd: string): number =>
  passwd.split('\n').filter((line) => {
    const [name, , id, , , , shell = ''] = line.split(':');
    return name && Number(id) >= 1000 && Number(id) < 60000 && !/(nologin|false|sync)$/.test(shell);
  }).length;

/**
 * How many people have an account on this computer, as far as it shows: by `/etc/passwd`, or by the folders of people
 * (macOS, Windows). `null` where nothing can be told; accounts of a network are in neither.
 */
export async function userAccounts(platform = process.platform, env = process.env): Promise<number | null> {
  try {
    if (platform === 'darwin' || platform === 'win32') {
      const folder = platform === 'darwin' ? '/Users' : join(env['SystemDrive'] ?? 'C:', '\\Users');
      const entries = await readdir(folder, { withFileTypes: true });
      return entries.filter((each) => each.isDirectory() && !NOBODYS.test(each.name)).length;
    }
    return peopleIn(await readFile('/etc/passwd', 'utf8'));
  } catch {
    return null;
  }
}
