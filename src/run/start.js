import { existsSync } from 'node:fs';
import { join } from 'node:path';
import { heldBy, livingOwner } from '../lib/server/storage/disk/owner.js';
import { dataFolder } from './data-folder.js';
import { isTaken } from './listen.js';
import { reasonOf } from './reason.js';
import { serve, stopOnSignal } from './serve.js';
import { buildIfStale, installIfStale, tooOld } from './set-up.js';

const port = Number(process.env.PORT ?? 4620);
const folder = dataFolder();

/** Said before anything is built: a build would take the files away from under a server that runs. */
async function whatStandsInTheWay() {
  const old = tooOld();
  if (old) return old;
  if (!Number.isInteger(port) || port < 0 || port > 65535) return `PORT=${process.env.PORT} is not a port.`;
  const owner = livingOwner(folder);
  if (owner) return heldBy(folder, owner);
  if (await isTaken(port))
    return `Port ${port} is taken by another program. Stop that one, or choose another port: PORT=${port + 1} npm start`;
  return null;
}

try {
  const obstacle = await whatStandsInTheWay();
  if (obstacle) throw new Error(obstacle);
  const isNew = !existsSync(join(folder, 'contents.json'));
  await installIfStale();
  await buildIfStale();
  // The store must open the very folder that is printed.
  process.env.NEXT_TWENTY_DATA = folder;
  const { origin, warning, close } = await serve({ port });
  stopOnSignal(close);
  console.log(`\nNext Twenty is at  ${origin}`);
  console.log(`Your record is in  ${folder}${isNew ? '  (new and empty)' : ''}`);
  if (warning) console.log(`\n${warning}\n`);
  console.log('Ctrl+C stops it. Use after surgery, never in theatre.');
} catch (why) {
  console.error(`\n${reasonOf(why)}`);
  process.exit(1);
}
