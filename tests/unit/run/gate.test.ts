import { describe, expect, it } from 'vitest';
import { judge, onLoopback } from '../../../src/run/gate.js';

const ask = (host: string | undefined, method = 'GET', url = '/cases') =>
  judge({ method, url, headers: { host } }, onLoopback(4620));

describe('who may ask', () => {
  it('serves its own name', () => {
    expect(ask('127.0.0.1:4620')).toEqual({ kind: 'serve' });
    expect(ask('127.0.0.1:4620', 'POST')).toEqual({ kind: 'serve' });
  });

  it('redirects reading, never a change', () => {
    expect(ask('localhost:4620', 'HEAD', '/a?b=c')).toEqual({ kind: 'redirect', to: 'http://127.0.0.1:4620/a?b=c' });
    expect(ask('[::1]:4620', 'GET', '//evil.example')).toEqual({
      kind: 'redirect',
      to: 'http://127.0.0.1:4620//evil.example',
    });
    expect(ask('localhost:4620', 'POST')).toMatchObject({ kind: 'refuse', status: 421 });
  });

  it('refuses every other name', () => {
    for (const host of [
      undefined,
      '',
      '127.0.0.1',
      '127.0.0.1:4621',
      'evil.example:4620',
      '127.0.0.1:4620.evil.example',
    ])
      expect(ask(host), String(host)).toMatchObject({ kind: 'refuse', status: 421 });
    expect(ask('127.0.0.1:4620', 'GET', 'http://evil.example/')).toMatchObject({ kind: 'refuse', status: 400 });
  });
});
