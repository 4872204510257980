import type { Steps } from '../../turns';
import { weights } from '../weights';

/** CP1252's own signs between 0x80 and 0x9f (WHATWG Encoding, index windows-1252); elsewhere it is Latin-1. */
const WINDOWS_1252 = '€\u0081‚ƒ„…†‡ˆ‰Š‹Œ\u008dŽ\u008f\u0090‘’“”•–—˜™š›œ\u009džŸ';

export type Decoded = { text: string; encoding: 'utf-8' | 'utf-16' | 'windows-1252' } | { problem: string };

/** First bytes of files that are not text, and what to say. */
const NO_TEXT: readonly { starts: readonly number[]; what: string }[] = [
  { starts: [0x89, 0x50, 0x4e, 0x47], what: 'a picture (PNG)' },
  { starts: [0xff, 0xd8, 0xff], what: 'a picture (JPEG)' },
  { starts: [0x47, 0x49, 0x46, 0x38], what: 'a picture (GIF)' },
  { starts: [0x42, 0x4d], what: 'a picture (BMP)' },
  { starts: [0x25, 0x50, 0x44, 0x46], what: 'a PDF' },
  { starts: [0x50, 0x4b, 0x03, 0x04], what: 'a workbook or another packed file' },
  { starts: [0xd0, 0xcf, 0x11, 0xe0], what: 'an old workbook (.xls)' },
  { starts: [0x1f, 0x8b], what: 'a packed file' },
  { starts: [0x00, 0x00, 0x00], what: 'a recording or another file that is not text' },
];

const WHAT_TO_DO = 'Save the sheet as CSV (comma separated) and bring in that file, or paste its cells.';

/**
 * Bytes of a file to text, handing over after every megabyte: UTF-8 or UTF-16 with or without its byte-order mark, else Windows-1252.
 *
 * @returns the text without a byte-order mark, or what the file seems to be and what to do.
 */
export function* decoding(bytes: Uint8Array): Steps<Decoded> {
  for (const { starts, what } of NO_TEXT)
    if (starts.every((byte, index) => bytes[index] === byte) && (starts[0] !== 0x42 || looksBinary(bytes)))
      return { problem: `This is ${what}, not a table of times. ${WHAT_TO_DO}` };
  const wide = utf16(bytes);
  if (wide) return { text: yield* inParts(bytes, new TextDecoder(wide)), encoding: 'utf-16' };
  if (looksBinary(bytes)) return { problem: `This file is not text. ${WHAT_TO_DO}` };
  try {
    return { text: yield* inParts(bytes, new TextDecoder('utf-8', { fatal: true })), encoding: 'utf-8' };
  } catch {
    // Own table: some versions of Node read "windows-1252" as Latin-1.
    const own = (part: string) =>
      part.replace(/[\u0080-\u009f]/g, (sign) => WINDOWS_1252.charAt(sign.charCodeAt(0) - 0x80));
    return { text: yield* inParts(bytes, new TextDecoder('windows-1252'), own), encoding: 'windows-1252' };
  }
}

const PART = 1_000_000;

function* inParts(bytes: Uint8Array, decoder: TextDecoder, own = (part: string) => part): Steps<string> {
  let text = '';
  for (let from = 0; from < bytes.length; from += PART) {
    if (from > 0) yield weights.part;
    text += own(decoder.decode(bytes.subarray(from, from + PART), { stream: true }));
  }
  return text + own(decoder.decode());
}

/** What a file or a paste holds, as text; `problem` where it is none. */
export function* textOf({ bytes, text = '' }: { text?: string; bytes?: Uint8Array }): Steps<Decoded> {
  const decoded = bytes ? yield* decoding(bytes) : { text };
  return 'problem' in decoded ? decoded : checkText(decoded.text);
}

/** Text that somebody else decoded: a byte-order mark goes, a picture is still a picture. */
export function checkText(text: string): Decoded {
  const plain = text.startsWith('\uFEFF') ? text.slice(1) : text;
  const start = plain.slice(0, 1024);
  const signs = ['PNG\r\n', '%PDF-', 'PK\u0003\u0004', 'GIF8', 'JFIF'];
  if (start.includes('\0') || signs.some((sign) => start.slice(0, 12).includes(sign)))
    return { problem: `This is a picture or another file that is not text. ${WHAT_TO_DO}` };
  return { text: plain, encoding: 'utf-8' };
}

/** A mark, or every other byte zero, as in plain letters written wide. */
function utf16(bytes: Uint8Array): 'utf-16le' | 'utf-16be' | null {
  if (bytes[0] === 0xff && bytes[1] === 0xfe) return 'utf-16le';
  if (bytes[0] === 0xfe && bytes[1] === 0xff) return 'utf-16be';
  const sample = bytes.subarray(0, 400);
  if (sample.length < 4) return null;
  let even = 0;
  let odd = 0;
  sample.forEach((byte, index) => {
    if (byte === 0 && index % 2 === 0) even += 1;
    else if (byte === 0) odd += 1;
  });
  const half = sample.length / 2;
  if (odd > 0.7 * half && even < 0.1 * half) return 'utf-16le';
  return even > 0.7 * half && odd < 0.1 * half ? 'utf-16be' : null;
}

/** A zero byte, or many control characters: no table is ever typed like that. */
function looksBinary(bytes: Uint8Array): boolean {
  const sample = bytes.subarray(0, 4096);
  let control = 0;
  for (const byte of sample) {
    if (byte === 0) return true;
    if (byte < 32 && byte !== 9 && byte !== 10 && byte !== 13 && byte !== 12) control += 1;
  }
  return control > sample.length / 50;
}
