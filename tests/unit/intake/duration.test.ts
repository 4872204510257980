import { describe, expect, it } from 'vitest';
import * as fc from 'fast-check';
import { parseDuration } from '../../../src/lib/intake';

describe('a duration as people write it', () => {
  it.each([
    ['83', 83],
    ['83 s', 83],
    ['83s', 83],
    ['83 sec', 83],
    ['83 secs.', 83],
    ['83 seconds', 83],
    ['1:23', 83],
    ['01:23', 83],
    ['1:23.5', 83.5],
    ['1:23,5', 83.5],
    ['1m23s', 83],
    ['1m 23s', 83],
    ['1 m 23', 83],
    ['1 min 23 s', 83],
    ['1 MIN 23 SEC', 83],
    ['1 minute 23 seconds', 83],
    ['1′23″', 83],
    [`1'23"`, 83],
    ['0:01:23', 83],
    ['00:01:23', 83],
    ['1:01:23', 3683],
    ['1 h 2 min', 3720],
    ['2 min', 120],
    ['1.5 min', 90],
    ['1,5 min', 90],
    ['83.5', 83.5],
    ['83,5', 83.5],
    ['.5', 0.5],
    ['83.5 s', 83.5],
    ['  83\u00a0s ', 83],
    ['83', 83],
  ])('%s is %d s', (text, seconds) => {
    expect(parseDuration(text)).toEqual({ seconds });
  });

  it.each([
    ['', /no time here/],
    ['   ', /no time here/],
    ['1:75', /75 seconds/],
    ['1:60', /60 seconds/],
    ['1:75:10', /75 minutes/],
    ['1 min 75 s', /75 seconds beside minutes/],
    ['-5', /below zero/],
    ['−5', /below zero/],
    ['-1:23', /below zero/],
    ['0', /zero/],
    ['0:00', /zero/],
    ['7201', /two hours/],
    ['3:00:00', /two hours/],
    ['x', /not a time/],
    ['1e3', /not a time/],
    ['Infinity', /not a time/],
    ['NaN', /not a time/],
    ['0x10', /not a time/],
    ['1:2:3:4', /not a time/],
    ['about 80', /not a time/],
    ['80-90', /not a time/],
    ['1.2.3', /not a time/],
    ['1,234.5', /not a time/],
    ['12.03.2025', /not a time/],
    ['s', /not a time/],
    ['min', /not a time/],
  ])('%j is refused, with the reason', (text, why) => {
    expect(parseDuration(text)).toEqual({ problem: expect.stringMatching(why) });
  });

  it('reads a bare number as the surgeon says', () => {
    expect(parseDuration('1.23', { plain: 'minutes' })).toEqual({ seconds: 73.8 });
    expect(parseDuration('1.23', { plain: 'minutes-seconds' })).toEqual({ seconds: 83 });
    expect(parseDuration('1,23', { plain: 'minutes-seconds' })).toEqual({ seconds: 83 });
    // A sheet shows 1.50 as 1.5.
    expect(parseDuration('1.5', { plain: 'minutes-seconds' })).toEqual({ seconds: 110 });
    expect(parseDuration('2', { plain: 'minutes-seconds' })).toEqual({ seconds: 120 });
    expect(parseDuration('1.75', { plain: 'minutes-seconds' })).toEqual({
      problem: expect.stringMatching(/not between 00 and 59/),
    });
    // What carries its own unit is not touched.
    expect(parseDuration('83 s', { plain: 'minutes' })).toEqual({ seconds: 83 });
    expect(parseDuration('1:23', { plain: 'minutes' })).toEqual({ seconds: 83 });
  });

  it('lets a clock reading be 0, and late in a recording', () => {
    expect(parseDuration('0', { as: 'reading' })).toEqual({ seconds: 0 });
    expect(parseDuration('2:10:00', { as: 'reading' })).toEqual({ seconds: 7800 });
    expect(parseDuration('-1', { as: 'reading' })).toEqual({ problem: expect.stringMatching(/below zero/) });
  });

  it('gives a finite time above zero or a sentence, whatever is typed', () => {
    fc.assert(
      fc.property(fc.oneof(fc.string(), fc.stringMatching(/^[0-9:.,smhin ]{0,12}$/)), (text) => {
        const read = parseDuration(text);
        if ('problem' in read) expect(read.problem.length).toBeGreaterThan(10);
        else {
          expect(read.seconds).toBeGreaterThan(0);
          expect(read.seconds).toBeLessThanOrEqual(7200);
        }
      }),
    );
  });

  it('reads back whole seconds in every form', () => {
    fc.assert(
      fc.property(fc.integer({ min: 1, max: 3599 }), (seconds) => {
        const [minutes, rest] = [Math.floor(seconds / 60), seconds % 60];
        const two = String(rest).padStart(2, '0');
        for (const text of [
          `${seconds}`,
          `${seconds} s`,
          `${minutes}:${two}`,
          `${minutes}m${rest}s`,
          `0:${String(minutes).padStart(2, '0')}:${two}`,
          `${minutes} min ${rest} s`,
        ])
          expect(parseDuration(text)).toEqual({ seconds });
        expect(parseDuration(`${minutes}.${two}`, { plain: 'minutes-seconds' })).toEqual({ seconds });
      }),
    );
  });
});
