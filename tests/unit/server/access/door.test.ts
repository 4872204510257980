import { describe, expect, it } from 'vitest';
import { pageOfOurs } from '../../../../src/lib/server/access/at-the-door';
import { IDLE_MINUTES, Sessions } from '../../../../src/lib/server/access/sessions';
import { Tries } from '../../../../src/lib/server/access/tries';
import { LEFT_ALONE_MINUTES } from '../../../../src/lib/ui/when-left-alone';

const MINUTE = 60_000;

describe('a session', () => {
  it('lasts while it is used, to the end of a long day, and not through half an hour of nothing', () => {
    const sessions = new Sessions();
    const token = sessions.begin(0);
    expect(sessions.sees(token, IDLE_MINUTES * MINUTE)).toBe(true);
    expect(sessions.sees(token, (2 * IDLE_MINUTES + 1) * MINUTE)).toBe(false);
    const other = sessions.begin(0);
    for (let minute = 0; minute <= 720; minute += 20)
      expect(sessions.sees(other, minute * MINUTE), `${minute}`).toBe(true);
    expect(sessions.sees(other, 721 * MINUTE)).toBe(false);
    expect(LEFT_ALONE_MINUTES).toBe(IDLE_MINUTES);
  });

  it('is none for a token nobody was given, one signed out, and all once everybody is', () => {
    const sessions = new Sessions();
    const [one, two] = [sessions.begin(0), sessions.begin(0)];
    expect(one).toMatch(/^[\w-]{43}$/);
    for (const token of [undefined, '', 'x', `${one}x`, one.slice(1)]) expect(sessions.sees(token, 1)).toBe(false);
    sessions.end(one);
    expect([sessions.sees(one, 1), sessions.sees(two, 1)]).toEqual([false, true]);
    sessions.endAll();
    expect(sessions.sees(two, 1)).toBe(false);
  });

  it('of the browser unseen for longest goes where there are too many', () => {
    const sessions = new Sessions();
    const first = sessions.begin(0);
    const second = sessions.begin(0);
    sessions.sees(first, 1);
    for (let more = 0; more < 49; more += 1) sessions.begin(2);
    expect([sessions.sees(first, 3), sessions.sees(second, 3)]).toEqual([true, false]);
  });
});

describe('guessing', () => {
  /** Tries as fast as it is let, for so long. @returns how many were looked at */
  const guesses = (tries: Tries, of: (nth: number) => string, until: number, step = 100) => {
    let looked = 0;
    for (let now = 0, nth = 0; now < until; now += step, nth += 1)
      if (tries.wait(of(nth), now) === 0) {
        tries.begin(of(nth), now);
        looked += 1;
      }
    return looked;
  };

  it('from one address gets some dozen looks in an hour, where a slip costs nothing', () => {
    expect(guesses(new Tries(), () => 'a', 60 * MINUTE)).toBeLessThanOrEqual(18);
    const tries = new Tries();
    for (let slip = 0; slip < 3; slip += 1) tries.begin('a', 0);
    expect(tries.wait('a', 0)).toBe(0);
  });

  it('from a thousand addresses gets a few dozen more', () => {
    expect(guesses(new Tries(), (nth) => `a${nth % 1000}`, 60 * MINUTE)).toBeLessThanOrEqual(60);
  });

  it('many at once are counted before they are looked at', () => {
    const tries = new Tries();
    const looked = Array.from({ length: 100 }, () => tries.wait('a', 0) === 0 && (tries.begin('a', 0), true));
    expect(looked.filter(Boolean)).toHaveLength(4);
  });

  it('is forgotten once somebody knew it', () => {
    const tries = new Tries();
    for (let wrong = 0; wrong < 6; wrong += 1) tries.begin('a', 0);
    expect(tries.wait('a', 0)).toBeGreaterThan(0);
    tries.right('a');
    expect(tries.wait('a', 0)).toBe(0);
  });
});

it.each([
  null,
  '',
  'cases',
  '//evil.example',
  '/\\evil.example',
  '/a\\b',
  'https://evil.example',
  'javascript:alert(1)',
  '/a\r\nset-cookie: x=1',
  '/sign-in?to=/sign-in',
])('signing in never leads elsewhere: %j', (to) => expect(pageOfOurs(to)).toBe('/'));

it('signing in leads back to a page of ours', () => expect(pageOfOurs('/cases/case-1?a=b')).toBe('/cases/case-1?a=b'));
