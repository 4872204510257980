import { describe, expect, it } from 'vitest';
import { NoFile, sentFile } from '../../../src/lib/server/sent-file';

/** The request as Node's own `FormData` writes it (undici), handed over in pieces of so many bytes. */
async function requestOf(form: FormData, piece: number): Promise<Request> {
  const whole = new Request('http://127.0.0.1/', { method: 'POST', body: form });
  const bytes = new Uint8Array(await whole.arrayBuffer());
  return piecesOf(bytes, whole.headers.get('content-type') ?? '', piece);
}

const piecesOf = (bytes: Uint8Array, type: string, piece: number): Request => {
  let at = 0;
  const body = new ReadableStream<Uint8Array>({
    pull(controller) {
      if (at >= bytes.length) return controller.close();
      controller.enqueue(bytes.slice(at, (at += piece)));
    },
  });
  const init = { method: 'POST', body, duplex: 'half', headers: { 'content-type': type } };
  return new Request('http://127.0.0.1/', init as RequestInit);
};

async function received(request: Request) {
  const { name, bytes } = await sentFile(request);
  const all: Uint8Array[] = [];
  for await (const chunk of bytes) all.push(chunk.slice());
  return { name, text: Buffer.concat(all).toString('latin1') };
}

describe('the file of a form', () => {
  it.each([1, 3, 64, 1e6])('comes as it was sent, in pieces of %i bytes', async (piece) => {
    for (const text of ['', 'x', '\r\n--', 'a\r\n\r\nb\r\n--WebKit\r\n', `${'\r\n-'.repeat(200)}end`]) {
      const form = new FormData();
      form.set('file', new File([text], 'kept 2026.json', { type: 'application/json' }));
      expect(await received(await requestOf(form, piece))).toEqual({ name: 'kept 2026.json', text });
    }
  });

  it('that is none, or ends too early, is said', async () => {
    const form = new FormData();
    form.set('word', 'no file');
    await expect(received(await requestOf(form, 10))).rejects.toThrow(NoFile);
    await expect(received(new Request('http://127.0.0.1/', { method: 'POST', body: 'x' }))).rejects.toThrow(NoFile);
    const cut = new TextEncoder().encode(
      '--b\r\ncontent-disposition: form-data; name="file"; filename="a"\r\n\r\nhalf',
    );
    await expect(received(piecesOf(cut, 'multipart/form-data; boundary=b', 10))).rejects.toThrow(
      'before the file does',
    );
  });

  it('is read to its end where it is refused half-way, so that the browser reads the answer', async () => {
    const form = new FormData();
    form.set('file', new File(['x'.repeat(5000)], 'a.json'));
    const request = await requestOf(form, 100);
    let asked = 0;
    const reader = request.body?.getReader();
    const body = { getReader: () => ({ read: () => ((asked += 1), reader?.read()) }) };
    const { bytes } = await sentFile({ headers: request.headers, body } as unknown as Request);
    for await (const _first of bytes) break;
    expect(asked).toBeGreaterThan(50);
  });
});
