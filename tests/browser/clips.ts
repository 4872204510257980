import type { Page } from 'playwright/test';

/** A clip made for one test: its frames carry their own number, so that what is shown can be read from the picture. */
export type ClipPlan = {
  seconds: number;
  /** Frames a second. */
  rate: number;
  width: number;
  height: number;
  /** A bar is in the picture in these spans, seconds. */
  bars: readonly (readonly [number, number])[];
};

/** Bits of the number drawn across the top of each frame, the highest first. */
export const BITS = 14;

/**
 * Encodes a clip as VP8 in WebM with the browser's own encoder, one block a frame at its exact place, a key frame every two
 * seconds. The container is written here: no library that plays or makes video comes with this program.
 */
export async function madeClip(page: Page, plan: ClipPlan): Promise<Buffer> {
  const text = await page.evaluate(encoded, { ...plan, bits: BITS });
  return Buffer.from(text, 'base64');
}

/** Runs in the page. */
async function encoded({ seconds, rate, width, height, bars, bits }: ClipPlan & { bits: number }): Promise<string> {
  const canvas = new OffscreenCanvas(width, height);
  const drawing = canvas.getContext('2d');
  if (!drawing) throw new Error('no canvas');
  const count = Math.round(seconds * rate);
  const blocks: { at: number; key: boolean; bytes: Uint8Array }[] = [];
  const encoder = new VideoEncoder({
    output: (chunk) => {
      const bytes = new Uint8Array(chunk.byteLength);
      chunk.copyTo(bytes);
      blocks.push({ at: Math.round(chunk.timestamp / 1000), key: chunk.type === 'key', bytes });
    },
    error: (why) => {
      throw why;
    },
  });
  encoder.configure({ codec: 'vp8', width, height, bitrate: 1_000_000, framerate: rate, latencyMode: 'realtime' });
  for (let n = 0; n < count; n += 1) {
    drawing.fillStyle = '#7a4a3a';
    drawing.fillRect(0, 0, width, height);
    drawing.fillStyle = '#321';
    drawing.beginPath();
    drawing.arc(width / 2 + 4 * Math.sin(n / 40), height / 2 + 20, height / 4, 0, 7);
    drawing.fill();
    const at = n / rate;
    if (bars.some(([from, to]) => at >= from && at < to)) {
      drawing.fillStyle = '#eee';
      drawing.fillRect(width * 0.3, height * 0.4, width * 0.5, height * 0.12);
    }
    for (let bit = 0; bit < bits; bit += 1) {
      drawing.fillStyle = (n >> (bits - 1 - bit)) & 1 ? '#fff' : '#000';
      // Low, so that the number itself is no change of the picture.
      drawing.fillRect((bit * width) / bits, 0, width / bits + 1, height / 12);
    }
    const frame = new VideoFrame(canvas, { timestamp: Math.round((n * 1e6) / rate), duration: 1e6 / rate });
    encoder.encode(frame, { keyFrame: n % Math.round(2 * rate) === 0 });
    frame.close();
    while (encoder.encodeQueueSize > 20) await new Promise((resolve) => setTimeout(resolve, 5));
  }
  await encoder.flush();

  // WebM (Matroska, RFC 9559): the least that a player needs.
  const size = (length: number) =>
    [0x08, 0, 0, 0, 0, 0, 0, 0].map((_, at) => (at === 0 ? 0x01 : (length / 2 ** (8 * (7 - at))) & 255));
  const whole = (value: number, bytes: number) =>
    Array.from({ length: bytes }, (_, at) => Math.floor(value / 2 ** (8 * (bytes - 1 - at))) & 255);
  const float = (value: number) => [...new Uint8Array(new Float64Array([value]).buffer)].reverse();
  const letters = (value: string) => [...value].map((one) => one.charCodeAt(0));
  const join = (parts: readonly ArrayLike<number>[]) => {
    const all = new Uint8Array(parts.reduce((sum, part) => sum + part.length, 0));
    let at = 0;
    for (const part of parts) {
      all.set(part, at);
      at += part.length;
    }
    return all;
  };
  const element = (id: readonly number[], ...content: readonly ArrayLike<number>[]) => {
    const body = join(content);
    return join([id, size(body.length), body]);
  };
  const head = element(
    [0x1a, 0x45, 0xdf, 0xa3],
    element([0x42, 0x82], letters('webm')),
    element([0x42, 0x87], [4]),
    element([0x42, 0x85], [2]),
  );
  const info = element(
    [0x15, 0x49, 0xa9, 0x66],
    element([0x2a, 0xd7, 0xb1], whole(1_000_000, 4)),
    element([0x44, 0x89], float(seconds * 1000)),
    element([0x4d, 0x80], letters('test')),
    element([0x57, 0x41], letters('test')),
  );
  const tracks = element(
    [0x16, 0x54, 0xae, 0x6b],
    element(
      [0xae],
      element([0xd7], [1]),
      element([0x73, 0xc5], [1]),
      element([0x83], [1]),
      element([0x86], letters('V_VP8')),
      element([0xe0], element([0xb0], whole(width, 2)), element([0xba], whole(height, 2))),
    ),
  );
  const clusters: { at: number; bytes: Uint8Array }[] = [];
  let begin = 0;
  while (begin < blocks.length) {
    let end = begin + 1;
    while (end < blocks.length && !blocks[end]?.key) end += 1;
    const own = blocks.slice(begin, end);
    const at = own[0]?.at ?? 0;
    clusters.push({
      at,
      bytes: element(
        [0x1f, 0x43, 0xb6, 0x75],
        element([0xe7], whole(at, 4)),
        ...own.map((block) => element([0xa3], [0x81], whole(block.at - at, 2), [block.key ? 0x80 : 0], block.bytes)),
      ),
    });
    begin = end;
  }
  // The index stands before the pictures; its own length does not depend on what it says.
  const cues = (places: readonly number[]) =>
    element(
      [0x1c, 0x53, 0xbb, 0x6b],
      ...clusters.map(({ at }, n) =>
        element(
          [0xbb],
          element([0xb3], whole(at, 4)),
          element([0xb7], element([0xf7], [1]), element([0xf1], whole(places[n] ?? 0, 8))),
        ),
      ),
    );
  const before = info.length + tracks.length + cues([]).length;
  const places = clusters.map(
    (_, n) => before + clusters.slice(0, n).reduce((sum, { bytes }) => sum + bytes.length, 0),
  );
  const file = join([
    head,
    element([0x18, 0x53, 0x80, 0x67], info, tracks, cues(places), ...clusters.map(({ bytes }) => bytes)),
  ]);
  let text = '';
  for (let at = 0; at < file.length; at += 0x8000) text += String.fromCharCode(...file.subarray(at, at + 0x8000));
  return btoa(text);
}

/** The number of the frame that a `<video>` of the page shows, read from its picture. */
export const frameShown = (page: Page, nth = 0): Promise<number> =>
  page.locator('video').nth(nth).evaluate(numberIn, BITS);

/** Runs in the page. */
export function numberIn(video: HTMLVideoElement | SVGElement, bits: number): number {
  const canvas = new OffscreenCanvas(bits * 8, 24);
  const drawing = canvas.getContext('2d', { willReadFrequently: true });
  if (!drawing || !(video instanceof HTMLVideoElement)) throw new Error('nothing to read');
  drawing.drawImage(video, 0, 0, canvas.width, canvas.height);
  let number = 0;
  for (let bit = 0; bit < bits; bit += 1) {
    const [red = 0] = drawing.getImageData(bit * 8 + 4, 1, 1, 1).data;
    number = number * 2 + (red > 127 ? 1 : 0);
  }
  return number;
}
