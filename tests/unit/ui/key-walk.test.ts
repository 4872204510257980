import { describe, expect, it } from 'vitest';
import { keyStep, type WalkField } from '../../../src/lib/ui/key-walk';

const nucleus: WalkField = { kind: 'keys', name: 'nucleus', keys: { 1: 'soft', 2: 'medium', W: 'white' } };
const hands: WalkField = { kind: 'keys', name: 'hands', keys: { M: 'mine', S: 'some' }, stay: ['some'] };
const more: WalkField = { kind: 'letters', name: 'more', letters: ['F', 'T'] };

describe('one key a field', () => {
  it('fills an answer and moves on, whatever the case of the letter', () => {
    expect(keyStep('2', nucleus, '')).toEqual({ set: { nucleus: 'medium' }, move: 1, taken: true });
    expect(keyStep('w', nucleus, '')).toEqual({ set: { nucleus: 'white' }, move: 1, taken: true });
  });

  it('stays where an answer needs more to be said', () => {
    expect(keyStep('s', hands, '')).toEqual({ set: { hands: 'some' }, move: 0, taken: true });
  });

  it('swallows a key that means nothing here, so that the browser picks no option by it', () => {
    expect(keyStep('9', nucleus, '')).toEqual({ set: {}, move: 0, taken: true });
  });

  it('takes 0 under anything else as none and moves on; letters gather and can be taken back', () => {
    expect(keyStep('0', more, '')).toEqual({ set: { more: '0' }, move: 1, taken: true });
    expect(keyStep('f', more, '')).toEqual({ set: { more: 'F' }, move: 0, taken: true });
    expect(keyStep('t', more, 'F')).toEqual({ set: { more: 'FT' }, move: 0, taken: true });
    expect(keyStep('f', more, 'FT')).toEqual({ set: { more: 'T' }, move: 0, taken: true });
    expect(keyStep('f', more, '0')).toEqual({ set: { more: 'F' }, move: 0, taken: true });
  });

  it('moves on with Enter and never sends the form by it', () => {
    expect(keyStep('Enter', more, 'F')).toEqual({ set: {}, move: 1, taken: true });
  });

  it('empties with Backspace, and goes back from an empty field', () => {
    expect(keyStep('Backspace', nucleus, 'medium')).toEqual({ set: { nucleus: '' }, move: 0, taken: true });
    expect(keyStep('Backspace', nucleus, '')).toEqual({ set: { nucleus: '' }, move: -1, taken: true });
    expect(keyStep('Backspace', more, 'FT').taken).toBe(false);
  });

  it('leaves Tab, arrows and Space to the browser and the row', () => {
    for (const key of ['Tab', 'ArrowDown', ' ', 'Escape']) expect(keyStep(key, nucleus, '').taken).toBe(false);
  });
});
