import { describe, expect, it } from 'vitest';
import { personIn } from '../../../src/lib/persons';

describe('what looks like a person in a note', () => {
  it.each([
    ['Mrs Example squeezed a lot', 'a name'],
    ['on 12 March the edge ran out', 'a date'],
    ['2026-03-12 second case', 'a date'],
    ['12/03/26, left eye', 'a date'],
    ['an 84 year old with a tight orbit', 'an age'],
    ['84-year-old', 'an age'],
    ['patient no 48213', 'a number that could be a patient’s'],
    ['MRN: 00482133', 'a number that could be a patient’s'],
    ['write to someone@example.org', 'an address'],
  ])('"%s" looks like %s', (text, looksLike) => {
    expect(personIn(text).map((found) => found.looksLike)).toContain(looksLike);
  });
  it.each([
    'I let the flap go twice and refilled; the edge came back.',
    'Next time: find the port before the hold. 3 of 5 cases.',
    'In cases F101 to F106 the nucleus was hard; 20 of 41 timed.',
    'May be the incision was long.',
    'Dr blade slipped',
  ])('"%s" does not', (text) => expect(personIn(text)).toEqual([]));
});
