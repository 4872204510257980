import { describe, expect, it } from 'vitest';
import { readReflection } from '../../../src/lib/server/reflections';

const sent = (...fields: [string, string][]): FormData => {
  const form = new FormData();
  for (const id of ['case-1', 'case-2', 'case-3']) form.append('case', id);
  for (const [name, value] of fields) form.append(name, value);
  return form;
};

describe('"all the others" in a reflection', () => {
  it('answers for every case of the note that has no answer of its own, and for no other checkpoint', () => {
    const { input, errors } = readReflection(
      sent(
        ['all:answer:fold', 'done'],
        ['answer:case-1:fold', ''],
        ['answer:case-2:fold', 'partly'],
        ['answer:case-1:refill', ''],
      ),
    );
    expect(errors).toEqual([]);
    expect(input.answers).toEqual([
      { caseId: 'case-2', checkpointId: 'fold', answer: 'partly' },
      { caseId: 'case-1', checkpointId: 'fold', answer: 'done' },
      { caseId: 'case-3', checkpointId: 'fold', answer: 'done' },
    ]);
  });

  it('stands for "seen" of a protected part, and is worth storing alone', () => {
    const { input, errors } = readReflection(sent(['all:kept:chamber', 'yes'], ['kept:case-3:chamber', 'no']));
    expect(errors).toEqual([]);
    expect(input.answers).toEqual([]);
    expect(input.protectedSeen.map(({ caseId, seen }) => [caseId, seen])).toEqual([
      ['case-3', false],
      ['case-1', true],
      ['case-2', true],
    ]);
  });

  it('means nothing with a word that is no answer', () => {
    expect(readReflection(sent(['all:answer:fold', 'often'])).errors).toHaveLength(1);
  });
});
