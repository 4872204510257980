import { homedir } from 'node:os';
import { join, resolve } from 'node:path';

/**
 * The folder the record lives in: NEXT_TWENTY_DATA, else where this platform keeps the data of programs.
 * Plain JavaScript: `npm start` needs it before anything is installed.
 * @param {Record<string, string | undefined>} env
 * @param {string} platform as process.platform
 * @returns {string} an absolute path
 */
export function dataFolder(env = process.env, platform = process.platform) {
  if (env.NEXT_TWENTY_DATA) return resolve(env.INIT_CWD ?? '.', env.NEXT_TWENTY_DATA);
  const home = homedir();
  if (platform === 'win32') return join(env.LOCALAPPDATA ?? join(home, 'AppData', 'Local'), 'next-twenty');
  if (platform === 'darwin') return join(home, 'Library', 'Application Support', 'next-twenty');
  return join(env.XDG_DATA_HOME || join(home, '.local', 'share'), 'next-twenty');
}
