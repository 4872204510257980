import { execFileSync } from 'node:child_process';
import { mkdtempSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { judge } from '../../../src/run/gate.js';
import { inAddress, reachOf } from '../../../src/run/reach.js';

let folder: string;
beforeAll(() => {
  folder = mkdtempSync(join(tmpdir(), 'next-twenty-reach-'));
  execFileSync(
    'openssl',
    [
      'req',
      '-x509',
      '-newkey',
      'rsa:2048',
      '-nodes',
      '-days',
      '2',
      '-subj',
      '/CN=localhost',
      '-keyout',
      'key.pem',
      '-out',
      'cert.pem',
    ],
    { cwd: folder, stdio: 'ignore' },
  );
  writeFileSync(join(folder, 'other.pem'), 'not a certificate');
});
afterAll(() => rmSync(folder, { recursive: true, force: true }));

const none = () => mkdtempSync(join(folder, 'none-'));
const withOne = () => {
  const data = none();
  writeFileSync(join(data, 'passphrase.json'), '{}');
  return data;
};

describe('where the server may be reached', () => {
  it.each([undefined, '', '127.0.0.1', 'localhost', '::1', '[::1]'])('this computer alone with HOST=%s', (HOST) => {
    expect(reachOf({ HOST }, none())).toMatchObject({ host: null, kind: 'loopback', scheme: 'http' });
  });

  it.each(['192.168.1.20', 'theatre-pc', 'theatre-pc.local', 'fe80::1', '127.0.0.2'])(
    'at HOST=%s with a passphrase only',
    (HOST) => {
      expect(() => reachOf({ HOST }, none())).toThrow('with a passphrase only, and none is set');
      expect(reachOf({ HOST }, withOne())).toMatchObject({ host: HOST, kind: 'http' });
    },
  );

  it.each(['0.0.0.0', '::', '[::]', '*'])('never under every name: HOST=%s', (HOST) => {
    expect(() => reachOf({ HOST }, withOne())).toThrow('would answer under every name');
  });

  it.each(['a b', 'http://x', 'x:80', '../x', '-x', 'x/', 'x\r\ny'])('never at what is no name: HOST=%j', (HOST) => {
    expect(() => reachOf({ HOST }, withOne())).toThrow('is not an address or a name');
  });

  it('by https with a given certificate and its key, both of them and fitting', () => {
    const [cert, key] = [join(folder, 'cert.pem'), join(folder, 'key.pem')];
    const asked = (NEXT_TWENTY_TLS_CERT?: string, NEXT_TWENTY_TLS_KEY?: string) =>
      reachOf({ HOST: '192.168.1.20', NEXT_TWENTY_TLS_CERT, NEXT_TWENTY_TLS_KEY }, withOne());
    expect(asked(cert, key)).toMatchObject({
      kind: 'https',
      scheme: 'https',
      tls: { cert: expect.stringContaining('BEGIN') },
    });
    expect(() => asked(cert)).toThrow('give both');
    expect(() => asked(cert, join(folder, 'gone.pem'))).toThrow('cannot be read (ENOENT)');
    expect(() => asked(join(folder, 'other.pem'), key)).toThrow('cannot be used together');
  });

  it('answers there under that one name', () => {
    const place = { origin: `https://${inAddress('fe80::1')}:4620`, also: [] };
    const ask = (host: string) => judge({ url: '/', headers: { host } }, place).kind;
    expect(ask('[fe80::1]:4620')).toBe('serve');
    for (const host of ['localhost:4620', '127.0.0.1:4620', 'evil.example:4620', '[fe80::1]'])
      expect(ask(host)).toBe('refuse');
  });
});
