import { describe, expect, it } from 'vitest';
import { z } from 'zod';
import { newCaseSchema, textsWritten, unmarkedTexts } from '../../../src/lib/model';
import { note, ours } from '../../../src/lib/model/written';
import { documentSchemas } from '../../../src/lib/server/storage/documents';
import { recordFields } from '../../../src/lib/server/storage/everything-schema';

describe('every text of the record', () => {
  it.each([...Object.entries(documentSchemas), ...Object.entries(recordFields), ['new case', newCaseSchema] as const])(
    'of %s says whether a person types it',
    (_, schema) => expect(unmarkedTexts(schema)).toEqual([]),
  );

  it('is found where it has no mark, however deep it stands', () => {
    const schema = z.strictObject({
      kept: note(z.string()),
      made: ours(z.string(), 'a hash'),
      id: z.string().regex(/^a$/),
      deep: z.array(
        z.union([z.strictObject({ kind: z.literal('a'), remark: z.string().min(1).nullable() }), z.number()]),
      ),
      byName: z.record(z.string().regex(/^x$/), z.string()).optional(),
      still: note(z.string()).min(1),
    });
    expect(unmarkedTexts(schema)).toEqual(['deep[].remark', 'byName{}']);
  });

  it('is read out of a value by its mark', () => {
    expect(
      textsWritten(recordFields.lists, [
        {
          label: 'Mrs B',
          when: { kind: 'unknown' },
          untimedEvents: [{ kind: 'x', reviewed: { at: '', text: 'as told' } }],
        },
      ]).map(({ text, kind }) => `${kind}: ${text}`),
    ).toEqual(['label: Mrs B', 'label: x', 'note: as told']);
  });
});
