import { describe, expect, it } from 'vitest';
import { draftFields } from '../../../src/lib/rooms/cases/new-case-view';
import { reflectionDraft } from '../../../src/lib/server/reflections';
import type { Store } from '../../../src/lib/server/storage';

const keeping = (text: string | null) => ({ draft: async () => text }) as unknown as Store;
const note = { saw: 'rim', willTry: '', tags: '', answers: { 'answer:case-1:c1': 'done' }, cases: ['case-1'] };

describe('a draft', () => {
  it('is read as it was kept', async () => {
    expect(draftFields('{"code":["A1"],"notMine":["a","b"]}')).toEqual({ code: ['A1'], notMine: ['a', 'b'] });
    expect(await reflectionDraft(keeping(JSON.stringify(note)), 'k')).toEqual(note);
  });

  it('that is none, cut off, or of another shape counts as none', async () => {
    for (const text of [null, '', '{"code":', '[]', 'null', '{"code":"A1"}', '{"saw":"rim","cases":[1]}']) {
      expect(draftFields(text)).toBeNull();
      expect(await reflectionDraft(keeping(text), 'k')).toBeNull();
    }
  });
});
