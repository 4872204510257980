import { existsSync } from 'node:fs';
import { dirname, join } from 'node:path';
import { fileURLToPath, pathToFileURL } from 'node:url';
import { dataFolder } from './data-folder.js';
import { letIn, onLoopback } from './gate.js';
import { listenOn, listenOnLoopback } from './listen.js';
import { inAddress, PLAIN_HTTP, reachOf } from './reach.js';
import { reasonOf } from './reason.js';

const handlerFile = join(dirname(fileURLToPath(import.meta.url)), '..', '..', 'build', 'handler.js');

/** One number for all routes, and a whole record comes in as one file: what each route takes is held in hooks. */
const bodyLimit = '512M';

/** What a proxy would say in headers is not believed: there is none in front of a loopback address. */
const proxySettings = ['PROTOCOL_HEADER', 'HOST_HEADER', 'PORT_HEADER', 'ADDRESS_HEADER'];

/**
 * Serves the built app: on this machine alone, unless HOST names another address and a passphrase is set.
 * @param {{ port: number }} options port 0: any free one
 * @returns {Promise<{ origin: string, warning: string | null, close: (reason: string) => Promise<void> }>} once pages can be asked for
 * @throws what keeps the app from starting, the store's refusal of its folder included
 */
export async function serve({ port: wanted }) {
  const { host, kind, scheme, tls } = reachOf(process.env, dataFolder());
  if (!existsSync(handlerFile)) throw new Error('The app has not been built yet: run "npm start" or "npm run build".');

  /** @type {Promise<import('node:http').RequestListener> | undefined} */
  let app;
  /** @type {import('./gate.js').Place | undefined} */
  let place;
  /** @type {import('node:http').RequestListener} */
  const answered = (request, response) => {
    if (!place) return void response.writeHead(503).end();
    if (!letIn(request, response, place)) return;
    app?.then((answer) => answer(request, response)).catch(() => response.writeHead(503).end());
  };
  const { port, servers } = await (host === null
    ? listenOnLoopback(answered, wanted, tls)
    : listenOn(answered, host, wanted, tls));
  place =
    host === null
      ? onLoopback(port, scheme)
      : { origin: new URL(`${scheme}://${inAddress(host)}:${port}`).origin, also: [] };
  const { origin } = place;

  // The built handler reads these once, when it is imported.
  process.env.ORIGIN = origin;
  process.env.NEXT_TWENTY_REACH = kind;
  process.env.BODY_SIZE_LIMIT = bodyLimit;
  for (const name of proxySettings) delete process.env[name];

  /** @param {string} reason */
  const close = async (reason) => {
    const closed = servers.map((server) => new Promise((done) => server.close(done)));
    for (const server of servers) server.closeIdleConnections();
    const hurry = setTimeout(() => servers.forEach((server) => server.closeAllConnections()), 3000);
    await Promise.all(closed);
    clearTimeout(hurry);
    // adapter-node's own server would say this; the store closes on it.
    /** @type {NodeJS.EventEmitter} */ (process).emit('sveltekit:shutdown', reason);
  };

  app = import(pathToFileURL(handlerFile).href).then(
    ({ handler }) =>
      (request, response) =>
        handler(request, response, () => response.writeHead(404).end()),
  );
  try {
    await app;
  } catch (why) {
    for (const server of servers) server.close();
    throw why;
  }
  return { origin, warning: kind === 'http' ? PLAIN_HTTP : null, close };
}

/**
 * Stops on Ctrl+C or a request of the system: open requests get three seconds, then the store closes.
 * @param {(reason: string) => Promise<void>} close
 */
export function stopOnSignal(close) {
  for (const signal of ['SIGINT', 'SIGTERM'])
    process.once(signal, () => {
      setTimeout(() => process.exit(1), 10_000).unref();
      close(signal).catch((why) => {
        console.error(why);
        process.exit(1);
      });
    });
}

if (process.argv[1] && import.meta.url === pathToFileURL(process.argv[1]).href) {
  try {
    const { origin, warning, close } = await serve({ port: Number(process.env.PORT ?? 4620) });
    stopOnSignal(close);
    if (warning) console.error(warning);
    console.log(`listening ${origin}`);
  } catch (why) {
    console.error(reasonOf(why));
    process.exit(1);
  }
}
