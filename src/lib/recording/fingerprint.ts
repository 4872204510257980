const MEGABYTE = 1 << 20;

/** What a fingerprint is taken from: a file of the browser, or a `Blob`. */
export type Sliceable = Pick<Blob, 'size' | 'slice'>;

/**
 * A recording as it is known again, whatever it is called and wherever it lies: SHA-256 of its first and last megabyte
 * and its size. Reading all of 4 GB would take minutes; two recordings that share both ends and their size do not occur.
 *
 * @returns 64 hexadecimal digits, or `null` where the file can no longer be read: gone, or changed since it was opened
 */
export async function fingerprintOf(file: Sliceable): Promise<string | null> {
  try {
    const [first, last] = await Promise.all([
      file.slice(0, MEGABYTE).arrayBuffer(),
      file.slice(Math.max(MEGABYTE, file.size - MEGABYTE)).arrayBuffer(),
    ]);
    // A file whose stick was pulled out answers with nothing instead of an error.
    if (first.byteLength < Math.min(MEGABYTE, file.size)) return null;
    const all = await new Blob([first, last, String(file.size)]).arrayBuffer();
    const digest = await crypto.subtle.digest('SHA-256', all);
    return [...new Uint8Array(digest)].map((byte) => byte.toString(16).padStart(2, '0')).join('');
  } catch {
    return null;
  }
}

/** Can the end of the file still be read? Asked where a picture does not come. */
export async function canBeRead(file: Sliceable): Promise<boolean> {
  try {
    return (await file.slice(Math.max(0, file.size - 1)).arrayBuffer()).byteLength === 1;
  } catch {
    return false;
  }
}
