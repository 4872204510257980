import { homedir } from 'node:os';
import { join, resolve } from 'node:path';
import { describe, expect, it } from 'vitest';
import { dataFolder } from '../../../src/run/data-folder.js';

describe('the data folder', () => {
  it('is the one named, from where the person stood', () => {
    expect(dataFolder({ NEXT_TWENTY_DATA: '/srv/record' }, 'linux')).toBe(resolve('/srv/record'));
    expect(dataFolder({ NEXT_TWENTY_DATA: 'record', INIT_CWD: '/home/s' }, 'linux')).toBe(resolve('/home/s/record'));
  });

  it('is where the platform keeps such things', () => {
    expect(dataFolder({}, 'linux')).toBe(join(homedir(), '.local', 'share', 'next-twenty'));
    expect(dataFolder({ XDG_DATA_HOME: '/data' }, 'linux')).toBe(join('/data', 'next-twenty'));
    expect(dataFolder({}, 'darwin')).toBe(join(homedir(), 'Library', 'Application Support', 'next-twenty'));
    expect(dataFolder({ LOCALAPPDATA: '/local' }, 'win32')).toBe(join('/local', 'next-twenty'));
  });
});
