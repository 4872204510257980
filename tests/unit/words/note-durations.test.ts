import { describe, expect, it } from 'vitest';
import { durationIn } from '../../../src/lib/words';

describe('a note without times', () => {
  it.each([
    'finish under 60 s',
    'in less than 60s',
    'keep it below 1:30',
    'take half a minute',
    'two minutes at most',
    'not more than 1m30',
    'count the seconds',
    'within 45 sec.',
    'about 2,5 min',
    'a few seconds only',
  ])('refuses "%s"', (text) => expect(durationIn(text)).not.toBeNull());

  it.each([
    'if the edge starts to run out, then I stop and refill',
    'let go and take it again, three or four times round the circle',
    'then I call my second assistant at once',
    'a 5 mm opening, seen all round',
    'I look at both sides 2 times',
    'the second instrument guards the capsule',
    'wait until the chamber is deep',
  ])('lets "%s" pass', (text) => expect(durationIn(text)).toBeNull());
});
