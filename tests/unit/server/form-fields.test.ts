import { describe, expect, it } from 'vitest';
import { textOf, textsOf } from '../../../src/lib/rooms/forms/fields';
import { fieldsOf } from '../../../src/lib/server/form-fields';
import { heedForms } from '../../../src/lib/server/heed-forms';

const names = ['__proto__', 'constructor', 'toString', 'hasOwnProperty'];

describe('a posted form', () => {
  it('with names that every object answers to loses those alone', () => {
    const form = new FormData();
    for (const name of [...names, 'code', 'code']) form.append(name, ' A1 ');
    const fields = fieldsOf(form);
    expect(fields).toEqual({ code: [' A1 ', ' A1 '] });
    expect(Reflect.ownKeys(fields)).toEqual(['code']);
    expect(fieldsOf(new URLSearchParams('__proto__=x&when=1'))).toEqual({ when: ['1'] });
  });

  it('that has no such field answers nothing when asked for one', () => {
    for (const name of names) {
      expect(textOf({}, name)).toBe('');
      expect(textsOf({}, name)).toEqual([]);
    }
  });

  it('cut off, or no form at all, is refused with 400 and a sentence', async () => {
    const sent = (type: string, body: string) => {
      const request = new Request('http://127.0.0.1/', { method: 'POST', headers: { 'content-type': type }, body });
      heedForms(request, () => {});
      return request.formData();
    };
    const cut = '--b\r\nContent-Disposition: form-data; name="code"\r\n\r\nA1';
    for (const broken of [sent('multipart/form-data; boundary=b', cut), sent('text/plain', 'code=A1')])
      await expect(broken).rejects.toMatchObject({ status: 400, body: { message: /not a whole form/ } });
    expect((await sent('application/x-www-form-urlencoded', 'code=A1')).get('code')).toBe('A1');
  });
});
