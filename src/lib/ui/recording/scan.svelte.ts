import { CHANGE_EVERY, changeBetween, greyOf, SMALL, ticksOf, type Grey } from '../../recording';

/** One picture of the contact sheet. `at`: seconds; `src`: an address in the browser's own memory. */
export type SheetPicture = { at: number; src: string };

const PICTURE = { width: 160, height: 90 } as const;
/** Pictures of the sheet, two seconds apart; in a recording of more than half an hour they lie further apart. */
const MOST_PICTURES = 900;
/** Longer than this no changes are looked for, seconds: it would take longer than marking. */
export const LONGEST_FOR_CHANGES = 3600;

/**
 * Goes through a recording beside the one that is watched, in an element of its own: first the contact sheet, then how much
 * each half second differs from the one before. One element that seeks is the way that stalls the page least; taking key
 * frames alone would be faster and needs a library that reads the file.
 */
export class Scan {
  pictures = $state<SheetPicture[]>([]);
  /** Pictures that the whole sheet will have. */
  wanted = $state(0);
  /** Seconds between two pictures. */
  every = $state(2);
  /** Places of sharp changes, seconds; empty until the whole recording has been looked through. */
  ticks = $state<number[]>([]);
  /** 0 to 1; `null` while nothing is measured. */
  measured = $state<number | null>(null);
  state = $state<'none' | 'sheet' | 'changes' | 'done' | 'stopped'>('none');

  #over = new AbortController();

  async start(file: File, duration: number): Promise<void> {
    this.stop();
    const over = (this.#over = new AbortController());
    this.pictures = [];
    this.ticks = [];
    this.measured = null;
    this.every = Math.max(2, Math.ceil(duration / MOST_PICTURES));
    this.wanted = Math.max(1, Math.ceil(duration / this.every));
    this.state = 'sheet';
    const eye = new Eye(file);
    try {
      await eye.opened;
      const greys: Record<number, Grey> = {};
      for (let n = 0; n < this.wanted; n += 1) {
        await eye.goTo(n * this.every, duration);
        if (over.signal.aborted) return;
        greys[n * this.every] = eye.grey();
        const src = await eye.picture();
        if (over.signal.aborted) return;
        this.pictures.push({ at: n * this.every, src });
      }
      if (duration > LONGEST_FOR_CHANGES) {
        this.state = 'done';
        return;
      }
      this.state = 'changes';
      const changes = await this.#changes(eye, duration, greys, over.signal);
      if (!changes) return;
      this.ticks = ticksOf(changes);
      this.state = 'done';
    } catch {
      // A file that cannot be read on: what is there stays, and the player says why.
      if (!over.signal.aborted) this.state = 'stopped';
    } finally {
      eye.close();
    }
  }

  async #changes(
    eye: Eye,
    duration: number,
    greys: Readonly<Record<number, Grey>>,
    over: AbortSignal,
  ): Promise<number[] | null> {
    const changes: number[] = [];
    const count = Math.floor(duration / CHANGE_EVERY);
    let before: Grey | null = null;
    for (let n = 0; n < count; n += 1) {
      const at = n * CHANGE_EVERY;
      let grey: Grey | undefined = greys[at];
      if (!grey) {
        await eye.goTo(at, duration);
        grey = eye.grey();
      }
      if (over.aborted) return null;
      if (before) changes.push(changeBetween(before, grey));
      before = grey;
      this.measured = (n + 1) / count;
    }
    return changes;
  }

  /** Ends what is going on; what has been found stays. */
  stop = (): void => {
    this.#over.abort();
    if (this.state === 'sheet' || this.state === 'changes') this.state = 'stopped';
  };

  forget(): void {
    this.stop();
    for (const { src } of this.pictures) URL.revokeObjectURL(src);
    this.pictures = [];
    this.ticks = [];
    this.state = 'none';
  }
}

/** A recording that nobody watches. */
class Eye {
  readonly opened: Promise<void>;
  readonly #video = document.createElement('video');
  readonly #address: string;
  readonly #small = canvas(SMALL);
  readonly #large = canvas(PICTURE);

  constructor(file: File) {
    this.#video.muted = true;
    this.#video.preload = 'auto';
    this.#address = URL.createObjectURL(file);
    this.opened = new Promise((resolve, reject) => {
      this.#video.addEventListener('loadeddata', () => resolve(), { once: true });
      this.#video.addEventListener('error', () => reject(new Error('does not play')), { once: true });
    });
    this.#video.src = this.#address;
  }

  /** Shows the frame at a place. One in 900 of them is still the one before when drawn, which a sheet can bear. */
  goTo(seconds: number, duration: number): Promise<void> {
    const video = this.#video;
    return new Promise((resolve, reject) => {
      const late = setTimeout(() => reject(new Error('cannot be read here')), 8000);
      const there = () => {
        clearTimeout(late);
        resolve();
      };
      video.addEventListener('seeked', there, { once: true });
      video.currentTime = Math.min(seconds + 0.001, Math.max(0, duration - 0.001));
    });
  }

  grey(): Grey {
    this.#small.drawImage(this.#video, 0, 0, SMALL.width, SMALL.height);
    return greyOf(this.#small.getImageData(0, 0, SMALL.width, SMALL.height).data);
  }

  async picture(): Promise<string> {
    this.#large.drawImage(this.#video, 0, 0, PICTURE.width, PICTURE.height);
    const blob = await new Promise<Blob | null>((resolve) => this.#large.canvas.toBlob(resolve, 'image/jpeg', 0.7));
    return blob ? URL.createObjectURL(blob) : '';
  }

  close(): void {
    this.#video.removeAttribute('src');
    this.#video.load();
    URL.revokeObjectURL(this.#address);
  }
}

function canvas({ width, height }: { width: number; height: number }): CanvasRenderingContext2D {
  const made = document.createElement('canvas');
  Object.assign(made, { width, height });
  const drawing = made.getContext('2d', { willReadFrequently: true });
  if (!drawing) throw new Error('This browser draws nothing.');
  return drawing;
}
