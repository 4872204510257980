/**
 * What a JSON file holds, a piece at a time: each field of the outermost object, and each element of a field that is a
 * list. `text` is the JSON of the piece as it stands; a list is said once when it opens, with `text: null`.
 */
export type JsonPart = { field: string; index: number | null; text: Uint8Array | null };

/** Not JSON, or not an object, or a piece no record of ours has: `field` where that is known. */
export class NotParts extends Error {
  constructor(
    readonly field: string | null,
    why: string,
  ) {
    super(why);
  }
}

const [QUOTE, BACKSLASH, COLON, COMMA, OPEN, CLOSE, OPEN_LIST, CLOSE_LIST] = [...'"\\:,{}[]'].map((sign) =>
  sign.charCodeAt(0),
);

/** No record of a life is longer; a file that is one endless string must not fill the memory. */
const MOST = 64 * 1024 * 1024;

/**
 * Takes a JSON file in as it arrives and gives its parts out, whatever its layout. Structure is in bytes below 128,
 * which UTF-8 uses for nothing else, so nothing is decoded here. Our own, because streaming parsers build every value
 * in between and took five times as long for 100 MB; the pieces are left to `JSON.parse`.
 */
export class JsonParts {
  #depth = 0;
  #inText = false;
  #escaped = false;
  #field: string | null = null;
  /** The place of the next element, inside a field that is a list. */
  #index: number | null = null;
  #closedList = false;
  #held: Uint8Array[] = [];
  #holding = 0;

  /** Did the outermost object end? */
  whole = false;

  /** The field under way, for saying where a file ends that is cut off. */
  get field() {
    return this.#field;
  }

  /** @throws NotParts */
  *push(chunk: Uint8Array): Generator<JsonPart> {
    let from = 0;
    for (let at = 0; at < chunk.length; at++) {
      const byte = chunk[at] as number;
      if (this.#inText) {
        if (this.#escaped) this.#escaped = false;
        else if (byte === BACKSLASH) this.#escaped = true;
        else if (byte === QUOTE) this.#inText = false;
        continue;
      }
      if (byte <= 0x20) continue;
      if (this.whole) throw new NotParts(null, 'something stands after its end');
      if (this.#depth === 0) {
        if (byte === 0xef && this.#holding === 0 && chunk[at + 1] === 0xbb) at += 2;
        else if (byte === OPEN) [this.#depth, from] = [1, at + 1];
        else throw new NotParts(null, 'it is not JSON');
        continue;
      }
      const atPart = this.#depth === (this.#index === null ? 1 : 2);
      if (byte === QUOTE) this.#inText = true;
      else if (byte === OPEN || byte === OPEN_LIST) {
        this.#depth += 1;
        if (byte === OPEN_LIST && this.#depth === 2 && this.#field !== null) {
          [this.#index, from] = [0, at + 1];
          yield { field: this.#field, index: null, text: null };
        }
      } else if (byte === COLON && atPart && this.#field === null) {
        this.#field = nameIn(this.#taken(chunk.subarray(from, at)));
        from = at + 1;
      } else if (byte === COMMA && atPart) {
        yield* this.#part(chunk.subarray(from, at));
        if (this.#index === null) this.#field = null;
        from = at + 1;
      } else if (byte === CLOSE || byte === CLOSE_LIST) {
        if (atPart) {
          yield* this.#part(chunk.subarray(from, at));
          from = at + 1;
          this.#closedList = this.#index !== null;
          this.#index = null;
        }
        this.#depth -= 1;
        this.whole = this.#depth === 0;
      }
    }
    this.#hold(chunk.subarray(from));
  }

  *#part(last: Uint8Array): Generator<JsonPart> {
    const text = trimmed(this.#taken(last));
    const afterList = this.#closedList;
    this.#closedList = false;
    if (text.length === 0 && (afterList || this.#index !== null || this.#field === null)) return;
    if (this.#field === null) throw new NotParts(null, 'a value without a name');
    yield { field: this.#field, index: this.#index, text };
    if (this.#index !== null) this.#index += 1;
  }

  #hold(bytes: Uint8Array) {
    if (this.#depth === 0 || bytes.length === 0) return;
    this.#held.push(bytes);
    this.#holding += bytes.length;
    if (this.#holding > MOST) throw new NotParts(this.#field, 'one entry is longer than any record');
  }

  #taken(last: Uint8Array): Uint8Array {
    const all = this.#held.length === 0 ? last : Buffer.concat([...this.#held, last]);
    [this.#held, this.#holding] = [[], 0];
    return all;
  }
}

function trimmed(bytes: Uint8Array): Uint8Array {
  let [from, to] = [0, bytes.length];
  while (from < to && (bytes[from] as number) <= 0x20) from++;
  while (to > from && (bytes[to - 1] as number) <= 0x20) to--;
  return bytes.subarray(from, to);
}

const decoder = new TextDecoder('utf-8', { fatal: true });

/** @throws NotParts */
export function valueIn(part: JsonPart): unknown {
  try {
    return JSON.parse(decoder.decode(part.text ?? undefined));
  } catch {
    throw new NotParts(part.index === null ? part.field : `${part.field}.${part.index}`, 'it is not JSON');
  }
}

function nameIn(text: Uint8Array): string {
  const name = valueIn({ field: '', index: null, text: trimmed(text) });
  if (typeof name !== 'string') throw new NotParts(null, 'it is not JSON');
  return name;
}
