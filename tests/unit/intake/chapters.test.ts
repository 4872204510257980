import { expect, it } from 'vitest';
import { withoutPeople } from '../../../src/lib/intake/people-out/without-people';
import { atOnce } from '../../../src/lib/turns';
import { procedures } from './procedures';
import { read } from './reading';

const FILE = `WEBVTT

NOTE times as -> noted: 0:01

00:01.000 -> 00:59.000
Capsulorhexis

01:00.000 --> 01:20.000
Hydrodissection

1:20 --> 2:40
Cortex aspiration

00:02:40.000 --> 00:02:40.000
IOL insertion
`;

it('a chapter with a time line that cannot be read is named, never lost', () => {
  const { problems, cases, rowsIn, rowsTaken, rowsNamed } = read(FILE);
  expect(problems.map(({ row, value, why }) => [row, value, why])).toEqual([
    [2, '00:01.000 -> 00:59.000', expect.stringContaining('Write it as 00:01.000 --> 00:59.000')],
    [4, '1:20 --> 2:40', expect.stringContaining('Write it as')],
    [5, '160', expect.stringContaining('Start and end are the same')],
  ]);
  expect(cases.map(({ stretches }) => stretches.map(({ stepId }) => stepId))).toEqual([['hydrodissection']]);
  expect([rowsIn, rowsTaken, rowsNamed]).toEqual([4, 1, 3]);
});

it('chapters are kept without their notes and titles, and read the same', () => {
  const named = FILE.replace('WEBVTT', 'WEBVTT Mrs Miller, left eye');
  const { text } = atOnce(withoutPeople(named, procedures, { ownCodes: true, known: new Set() }));
  expect(text).not.toMatch(/Miller|noted/);
  const as = (each: string) => {
    const { problems, cases, rowsIn } = read(each);
    return { problems, cases, rowsIn };
  };
  expect(as(text)).toEqual(as(FILE));
});
