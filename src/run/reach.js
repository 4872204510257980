import { existsSync, readFileSync } from 'node:fs';
import { isIP, isIPv6 } from 'node:net';
import { join } from 'node:path';
import { createSecureContext } from 'node:tls';

const loopback = ['127.0.0.1', '::1', 'localhost'];
const everywhere = ['0.0.0.0', '::', '*', '[::]'];

/**
 * @typedef {{ host: string | null, kind: 'loopback' | 'http' | 'https', scheme: 'http' | 'https', tls: { cert: string, key: string } | null }} Reach
 * `host` null: 127.0.0.1 and ::1 alone.
 */

/**
 * Where the server may be reached, by HOST and a given certificate.
 * @param {Record<string, string | undefined>} env HOST, NEXT_TWENTY_TLS_CERT, NEXT_TWENTY_TLS_KEY (PEM files)
 * @param {string} folder the data folder: beyond this computer it must have a passphrase
 * @returns {Reach}
 * @throws why not, as sentences
 */
export function reachOf(env, folder) {
  const tls = certificateIn(env);
  const scheme = tls ? 'https' : 'http';
  const host = (env.HOST ?? '').replace(/^\[(.*)\]$/, '$1');
  if (host === '' || loopback.includes(host)) return { host: null, kind: 'loopback', scheme, tls };
  if (everywhere.includes(host) || everywhere.includes(env.HOST ?? ''))
    throw new Error(
      `HOST=${env.HOST} would answer under every name. Give the one address or name of this computer by which it is to be reached, such as HOST=192.168.1.20.`,
    );
  if (!isIP(host) && !/^(?=.{1,253}$)[a-z0-9]([a-z0-9-]*[a-z0-9])?(\.[a-z0-9]([a-z0-9-]*[a-z0-9])?)*$/i.test(host))
    throw new Error(`HOST=${env.HOST} is not an address or a name. Give it without a port: HOST=192.168.1.20.`);
  if (!existsSync(join(folder, 'passphrase.json')))
    throw new Error(
      `HOST=${env.HOST}: beyond this computer the record is opened with a passphrase only, and none is set. Start without HOST, set one under Settings, and start again.`,
    );
  return { host, kind: scheme, scheme, tls };
}

/** @param {Record<string, string | undefined>} env */
function certificateIn({ NEXT_TWENTY_TLS_CERT: certFile, NEXT_TWENTY_TLS_KEY: keyFile }) {
  if (!certFile && !keyFile) return null;
  if (!certFile || !keyFile)
    throw new Error('For https give both: NEXT_TWENTY_TLS_CERT and NEXT_TWENTY_TLS_KEY, each the path of a PEM file.');
  const read = (/** @type {string} */ name, /** @type {string} */ path) => {
    try {
      return readFileSync(path, 'utf8');
    } catch (why) {
      throw new Error(`${name}=${path} cannot be read (${/** @type {NodeJS.ErrnoException} */ (why).code}).`, {
        cause: why,
      });
    }
  };
  const tls = { cert: read('NEXT_TWENTY_TLS_CERT', certFile), key: read('NEXT_TWENTY_TLS_KEY', keyFile) };
  try {
    createSecureContext(tls);
  } catch (why) {
    const said = why instanceof Error ? why.message : String(why);
    throw new Error(`The certificate in ${certFile} and the key in ${keyFile} cannot be used together (${said}).`, {
      cause: why,
    });
  }
  return tls;
}

/** As it stands in an address. @param {string} host */
export const inAddress = (host) => (isIPv6(host) ? `[${host}]` : host);

/** Printed at the start, and said on the sign-in page. */
export const PLAIN_HTTP =
  'Other computers reach this server over plain http: whoever is between can read what is sent, the passphrase too. Give a certificate (NEXT_TWENTY_TLS_CERT and NEXT_TWENTY_TLS_KEY), or stay on this computer.';
