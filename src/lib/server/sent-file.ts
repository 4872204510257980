/** What a form sent is not what a form with one file sends. */
export class NoFile extends Error {}

const HEAD_MOST = 8 * 1024;

/** `fields`: what stands before the file in the form. */
type SentFile = { name: string; fields: ReadonlyMap<string, string>; bytes: AsyncGenerator<Uint8Array> };

const quoted = (key: string, head: string) =>
  new RegExp(`^content-disposition:.*;\\s*${key}="([^"\r\n]*)"`, 'im').exec(head)?.[1];

/**
 * The one file of a form, as it arrives: `formData()` would hold all of it, several times over. Short fields may stand before
 * it, nothing after it. RFC 7578; browsers send the boundary as it is and the name in double quotes.
 * @returns the name as the browser gave it ('' where none was chosen), and the bytes, to be read once
 * @throws NoFile
 */
export async function sentFile(request: Request): Promise<SentFile> {
  const boundary = /;\s*boundary=(?:"([^"]+)"|([^;\s]+))/i.exec(request.headers.get('content-type') ?? '');
  const reader = request.body?.getReader();
  if (!boundary || !reader) throw new NoFile('there is no file in this form');
  const edge = Buffer.from(`\r\n--${boundary[1] ?? boundary[2]}`);

  let held = Buffer.alloc(0);
  let over = false;
  const next = async () => {
    const { done, value } = await reader.read();
    over = done;
    return value;
  };
  const more = async () => {
    const value = await next();
    if (value) held = held.length === 0 ? Buffer.from(value) : Buffer.concat([held, value]);
  };

  /** All before that mark, taken out of what is held. */
  const before = async (mark: string | Buffer) => {
    let at = held.indexOf(mark);
    while (at < 0 && !over && held.length < HEAD_MOST) {
      await more();
      at = held.indexOf(mark);
    }
    if (at < 0) throw new NoFile('there is no file in this form');
    const text = held.subarray(0, at).toString('utf8');
    held = held.subarray(at + mark.length);
    return text;
  };

  const fields = new Map<string, string>();
  let name: string | undefined;
  while (name === undefined) {
    const head = await before('\r\n\r\n');
    name = quoted('filename', head);
    if (name === undefined) fields.set(quoted('name', head) ?? '', await before(edge));
  }

  async function* bytes(): AsyncGenerator<Uint8Array> {
    try {
      for (;;) {
        const at = held.indexOf(edge);
        const sure = at < 0 ? Math.max(0, held.length - edge.length) : at;
        if (sure > 0) yield held.subarray(0, sure);
        if (at >= 0) return;
        held = held.subarray(sure);
        if (over) throw new NoFile('what was sent ends before the file does');
        await more();
      }
    } finally {
      // Read to its end even where the file is refused half-way: a browser does not read an answer given before that.
      while (!over) await next();
    }
  }
  return { name, fields, bytes: bytes() };
}
