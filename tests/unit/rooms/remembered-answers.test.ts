import { describe, expect, it } from 'vitest';
import { readAudit } from '../../../src/lib/intake';
import {
  answersToRemember,
  forgotten,
  REMEMBERED,
  forgottenOne,
  rememberedHere,
  rememberedKeys,
  SHAPE,
  withRemembered,
} from '../../../src/lib/rooms/bring-in/remembered-answers';
import { procedures } from '../intake/procedures';

describe('what is remembered of a file', () => {
  it('is how it was read, and nothing of whose it is, who agreed, and what was not asked', () => {
    const answers = {
      'plain-number': 'minutes-seconds',
      'blank:zero': 'not-done',
      'date-order': 'dmy',
      'column:ring': 'step-time:iol-insertion',
      'label:ring in': 'step:iol-insertion',
      'value:nucleus:normal': 'soft',
      'event:ok': 'none',
    };
    const asked = {
      whose: 'me',
      agreed: 'yes',
      referenceLabel: 'Our unit',
      'surgeon:Miller': 'me',
      'event-empty': 'none',
      'event-dash': 'none',
      codes: 'keep',
      code: 'C7',
      known: 'new',
      'known:case-1': 'new',
      'rows-left': '3-9',
      [SHAPE]: 'abc',
      [REMEMBERED]: '["x"]',
    };
    expect(answersToRemember({ ...answers, ...asked })).toEqual(answers);
    expect(answersToRemember({ 'label:Dr Agnes Thorn': 'leave' })).toEqual({});
  });

  it('is shown as remembered where the next file has a use for it, and forgotten on wish', () => {
    const last = { 'plain-number': 'minutes-seconds', 'label:never seen': 'leave' };
    const choices = withRemembered({ [SHAPE]: 'abc' }, last);
    expect(rememberedKeys(choices)).toEqual(Object.keys(last));
    const text = 'case,step,duration\nA1,Rhexis,1.23\nA1,Phaco,2.40';
    const reading = readAudit({ text, fileName: 'a.csv', procedures, choices });
    expect(reading.cases[0]?.stretches.map(({ seconds }) => seconds)).toEqual([83, 160]);
    expect(rememberedHere(choices, reading).map(({ key }) => key)).toEqual(['plain-number']);
    expect(rememberedHere(choices, reading)[0]?.words).toMatch(/^What is 1\.\d\d\? /);
    expect(rememberedHere(forgottenOne(choices, 'plain-number'), reading)).toEqual([]);
    expect(rememberedKeys(forgottenOne(choices, 'plain-number'))).toHaveLength(Object.keys(last).length - 1);
    expect(forgotten(choices)).toEqual({ [SHAPE]: 'abc' });
    expect(rememberedKeys({ [REMEMBERED]: 'not json' })).toEqual([]);
  });
});
