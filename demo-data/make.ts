import { mkdir, writeFile } from 'node:fs/promises';
import { join } from 'node:path';
import type { Everything } from '../src/lib/server/storage/port';
import { everythingOfCamp, everythingOfConsultant, everythingOfFellow } from './records';

/** Writes the three invented surgeons beside this file. Same seed, same bytes. `npm run demo`. */
export async function run(
  _args: readonly string[] = [],
  io: { projectFolder: string } = { projectFolder: process.cwd() },
): Promise<number> {
  const folder = join(io.projectFolder, 'demo-data');
  await mkdir(folder, { recursive: true });
  const records: Record<string, Everything> = {
    fellow: everythingOfFellow(),
    consultant: everythingOfConsultant(),
    camp: everythingOfCamp(),
  };
  for (const [name, record] of Object.entries(records)) {
    await writeFile(join(folder, `${name}.json`), `${JSON.stringify(record)}\n`);
    process.stdout.write(`demo-data/${name}.json: ${record.cases.length} cases\n`);
  }
  return 0;
}
