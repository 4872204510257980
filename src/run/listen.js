import { createServer } from 'node:http';

/** @typedef {import('node:http').Server} Server */

/**
 * @param {import('node:http').RequestListener} answer
 * @param {string} host
 * @param {number} port
 * @returns {Promise<Server>}
 */
const listenAt = (answer, host, port) =>
  new Promise((resolve, reject) => {
    const server = createServer(answer);
    server.once('error', reject);
    server.listen({ host, port }, () => {
      server.off('error', reject);
      resolve(server);
    });
  });

/** @param {unknown} why */
const codeOf = (why) => /** @type {NodeJS.ErrnoException} */ (why).code;

/**
 * Listens on 127.0.0.1 and, where this machine has IPv6, on ::1 at the same port: some browsers take `localhost` for the
 * one, some for the other, and neither name may lead to another program.
 * @param {import('node:http').RequestListener} answer
 * @param {number} port 0 for any free one
 * @returns {Promise<{ port: number, servers: Server[] }>}
 * @throws with code EADDRINUSE when the port is taken on either
 */
export async function listenOnLoopback(answer, port) {
  for (let tries = 1; ; tries += 1) {
    const first = await listenAt(answer, '127.0.0.1', port);
    const address = first.address();
    const real = typeof address === 'object' && address ? address.port : port;
    try {
      return { port: real, servers: [first, await listenAt(answer, '::1', real)] };
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
