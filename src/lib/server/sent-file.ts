/** What a form sent is not what a form with one file sends. */
export class NoFile extends Error {}

const HEAD_MOST = 8 * 1024;

/**
 * The one file of a form, as it arrives: `formData()` would hold all of it, several times over. The form may hold nothing
 * else. RFC 7578; browsers send the boundary as it is and the name in double quotes.
 * @returns the name as the browser gave it ('' where none was chosen), and the bytes, to be read once
 * @throws NoFile
 */
export async function sentFile(request: Request): Promise<{ name: string; bytes: AsyncGenerator<Uint8Array> }> {
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

  let end = -1;
  while (!over && (end = held.indexOf('\r\n\r\n')) < 0 && held.length < HEAD_MOST) await more();
  const head = held.subarray(0, end).toString('utf8');
  const name = /^content-disposition:.*;\s*filename="([^"\r\n]*)"/im.exec(head)?.[1];
  if (end < 0 || name === undefined) throw new NoFile('there is no file in this form');
  held = held.subarray(end + 4);

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
  return { name, bytes: bytes() };
}
