import { readFileSync } from 'node:fs';
import { brotliDecompressSync } from 'node:zlib';

/** Table tags that WOFF2 names by number; of the others only the place in the list matters. */
const CMAP = 0;
const GLYF = 10;
const LOCA = 11;

/**
 * The code points that a typeface file has a glyph for, read from its character map.
 * Formats: W3C WOFF File Format 2.0 (sections 4 and 5), OpenType 1.9 `cmap` (formats 4 and 12).
 * @throws where the file is no WOFF2 or holds no such map
 */
export function glyphsOf(file: string | URL): Set<number> {
  const woff = readFileSync(file);
  if (woff.toString('latin1', 0, 4) !== 'wOF2') throw new Error(`${String(file)} is no WOFF2 file`);
  const tables = woff.readUInt16BE(12);
  let at = 48;
  const base128 = () => {
    let value = 0;
    for (;;) {
      const byte = woff.readUInt8(at++);
      value = value * 128 + (byte & 127);
      if (byte < 128) return value;
    }
  };
  let start = 0;
  let cmap: [number, number] | null = null;
  for (let table = 0; table < tables; table++) {
    const flags = woff.readUInt8(at++);
    const tag = flags & 63;
    if (tag === 63) at += 4;
    let length = base128();
    // `glyf` and `loca` are stored transformed unless they say otherwise, any other table only where it says so.
    const version = flags >> 6;
    if (tag === GLYF || tag === LOCA ? version === 0 : version !== 0) length = base128();
    if (tag === CMAP) cmap = [start, length];
    start += length;
  }
  const data = brotliDecompressSync(woff.subarray(at, at + woff.readUInt32BE(20)));
  if (!cmap) throw new Error(`${String(file)} holds no character map`);
  return characters(data.subarray(cmap[0], cmap[0] + cmap[1]));
}

function characters(map: Buffer): Set<number> {
  const found = new Set<number>();
  for (let record = 0; record < map.readUInt16BE(2); record++) {
    const table = map.subarray(map.readUInt32BE(4 + record * 8 + 4));
    const format = table.readUInt16BE(0);
    if (format === 4) segments(table, found);
    if (format === 12)
      for (let group = 0; group < table.readUInt32BE(12); group++)
        for (let code = table.readUInt32BE(16 + group * 12); code <= table.readUInt32BE(20 + group * 12); code++)
          found.add(code);
  }
  return found;
}

/** Format 4: end, start, delta and offset of each segment, in four arrays one behind another. */
function segments(table: Buffer, found: Set<number>): void {
  const twice = table.readUInt16BE(6);
  for (let each = 0; each < twice; each += 2) {
    const [end, start] = [table.readUInt16BE(14 + each), table.readUInt16BE(16 + twice + each)];
    const delta = table.readUInt16BE(16 + 2 * twice + each);
    const place = 16 + 3 * twice + each;
    const offset = table.readUInt16BE(place);
    for (let code = start; code <= end && code !== 0xffff; code++) {
      const glyph = offset === 0 ? code + delta : table.readUInt16BE(place + offset + (code - start) * 2);
      if (glyph % 65536 !== 0) found.add(code);
    }
  }
}

/** One `@font-face`: its family, whether italic, and the characters it is asked for and has. */
export type Face = { family: string; italic: boolean; has: ReadonlySet<number> };

/** The faces of `fonts.css`, as a browser would use them: within their ranges, and only what they hold. */
export function facesOf(css: string, fileOf: (path: string) => string | URL): Face[] {
  return [...css.matchAll(/@font-face\s*\{([^}]*)\}/g)].map(([, rules = '']) => {
    const rule = (name: string) => new RegExp(`${name}:\\s*([^;]*)`).exec(rules)?.[1] ?? '';
    const ranges = [...rule('unicode-range').matchAll(/U\+([0-9A-F]+)(?:-([0-9A-F]+))?/g)].map(
      ([, from = '', to = from]) => [parseInt(from, 16), parseInt(to, 16)] as const,
    );
    const glyphs = glyphsOf(fileOf(/url\('([^']*)'\)/.exec(rules)?.[1] ?? ''));
    return {
      family: rule('font-family').replaceAll("'", ''),
      italic: rule('font-style') === 'italic',
      has: new Set([...glyphs].filter((code) => ranges.some(([from, to]) => code >= from && code <= to))),
    };
  });
}
