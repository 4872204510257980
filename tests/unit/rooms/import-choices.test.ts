import { describe, expect, it } from 'vitest';
import { choicesFromForm } from '../../../src/lib/rooms/bring-in/import-choices';
import { readAudit } from '../../../src/lib/intake';
import { smallProcedure } from '../../made-up/record';

const text = [
  'case_id,side-port,capsulorhexis,cortex,wound-check,odd,surgeon',
  'B1,30,61,70,40,x,Mine',
  'B2,31,62,71,41,y,Theirs',
].join('\n');
const read = (choices: Record<string, string> = {}) =>
  readAudit({ text, fileName: 'times.csv', procedures: [smallProcedure], choices });
const fields = (over: Record<string, string>) =>
  Object.fromEntries(Object.entries(over).map(([name, value]) => [name, [value]]));
const keyOf = (from: string) => read().mapping.find((mapping) => mapping.from === from)?.key ?? '';

describe('answers of the preview', () => {
  it('does not freeze what was understood and left as it was', () => {
    const key = keyOf('capsulorhexis');
    const value = read().mapping.find((mapping) => mapping.key === key)?.value ?? '';
    expect(value).not.toBe('');
    const { choices, changed } = choicesFromForm(fields({ [key]: value }), read(), {});
    expect(choices).toEqual({});
    expect(changed).toBe(false);
  });

  it('keeps a correction, and says that the page must be shown again', () => {
    const key = keyOf('odd');
    const { choices, changed } = choicesFromForm(fields({ [key]: 'fact:nucleus' }), read(), {});
    expect(choices).toEqual({ [key]: 'fact:nucleus' });
    expect(changed).toBe(true);
  });

  it('counts a question as answered once it was sent, even with the guess', () => {
    const sent = fields({ 'surgeon:Mine': 'me', 'surgeon:Theirs': 'leave' });
    const first = choicesFromForm(sent, read(), {});
    expect(first.choices).toEqual({ 'surgeon:Mine': 'me', 'surgeon:Theirs': 'leave' });
    expect(first.changed).toBe(true);
    const again = choicesFromForm(sent, read(first.choices), first.choices);
    expect(again.changed).toBe(false);
  });

  it('takes no name the page did not ask for', () => {
    expect(choicesFromForm(fields({ anything: 'x', __proto__: 'y' }), read(), {}).choices).toEqual({});
  });

  it('an unticked "they agreed" is taken back', () => {
    const before = { whose: 'reference', agreed: 'yes' };
    const { choices, changed } = choicesFromForm(fields({ whose: 'reference' }), read(before), before);
    expect(choices['agreed']).toBe('');
    expect(changed).toBe(true);
  });
});
