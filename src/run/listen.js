import { createServer } from 'node:http';
import { createServer as createTlsServer } from 'node:https';

/** @typedef {import('node:http').Server | import('node:https').Server} Server */
/** @typedef {{ cert: string, key: string } | null} Tls */

/**
 * @param {import('node:http').RequestListener} answer
 * @param {string} host
 * @param {number} port
 * @param {Tls} tls
 * @returns {Promise<Server>}
 */
const listenAt = (answer, host, port, tls) =>
  new Promise((resolve, reject) => {
    const server = tls ? createTlsServer({ ...tls, minVersion: 'TLSv1.2' }, answer) : createServer(answer);
    server.once('error', reject);
    server.listen({ host, port }, () => {
      server.off('error', reject);
      resolve(server);
    });
  });

/** @param {Server} server */
const portOf = (server) => {
  const address = server.address();
  return typeof address === 'object' && address ? address.port : 0;
};

/**
 * Listens at one address or name of this computer, and nowhere else.
 * @param {import('node:http').RequestListener} answer
 * @param {string} host
 * @param {number} port 0 for any free one
 * @param {Tls} tls
 * @returns {Promise<{ port: number, servers: Server[] }>}
 */
export async function listenOn(answer, host, port, tls) {
  const server = await listenAt(answer, host, port, tls);
  return { port: portOf(server), servers: [server] };
}

/** @param {unknown} why */
const codeOf = (why) => /** @type {NodeJS.ErrnoException} */ (why).code;

/**
 * Listens on 127.0.0.1 and, where this machine has IPv6, on ::1 at the same port: some browsers take `localhost` for the
 * one, some for the other, and neither name may lead to another program.
 * @param {import('node:http').RequestListener} answer
 * @param {number} port 0 for any free one
 * @param {Tls} tls
 * @returns {Promise<{ port: number, servers: Server[] }>}
 * @throws with code EADDRINUSE when the port is taken on either
 */
export async function listenOnLoopback(answer, port, tls = null) {
  for (let tries = 1; ; tries += 1) {
    const first = await listenAt(answer, '127.0.0.1', port, tls);
    const real = portOf(first);
    try {
      return { port: real, servers: [first, await listenAt(answer, '::1', real, tls)] };
    } catch (why) {
      if (codeOf(why) !== 'EADDRINUSE') return { port: real, servers: [first] }; // no IPv6 here
      first.close();
      if (port !== 0 || tries === 5) throw why;
    }
  }
}

/**
 * @param {number} port
 * @returns {Promise<boolean>}
 */
export async function isTaken(port) {
  try {
    const { servers } = await listenOnLoopback(() => {}, port);
    await Promise.all(servers.map((server) => new Promise((closed) => server.close(closed))));
    return false;
  } catch (why) {
    if (codeOf(why) === 'EADDRINUSE') return true;
    throw why;
  }
}
