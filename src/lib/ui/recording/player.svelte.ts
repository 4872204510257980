import { canBeRead, frameAfter, frameBefore, frameGap } from '../../recording';

/** Why a recording does not show, as the page says it. */
export type Trouble = 'empty' | 'cannot-play' | 'no-picture' | 'gone' | 'damaged';

/** A seek that has not ended by then is looked into, milliseconds. */
const PATIENCE = 2000;
/** After a seek within one frame no picture comes, milliseconds … */
const SAME_FRAME = 250;
/** … and after a seek to a frame that lasts longer than others the one that came is believed. */
const NOTHING_NEW = 1000;
/** Far behind the end of any recording: asked for where a file does not tell how long it is. */
const BEHIND_THE_END = 1e9;
/** Frames kept to know how long one lasts. */
const FRAMES_KEPT = 60;

/**
 * One recording of the surgeon's own, in a `<video>` element: opened from the file as it lies there, sound off, and known by
 * the frame that is shown. Whatever is asked of it while it is on its way to another frame waits its turn.
 */
export class Player {
  /** Beginning of the frame that is shown, seconds. */
  shown = $state(0);
  /** Seconds; `null` where the file does not tell. */
  duration = $state<number | null>(null);
  playing = $state(false);
  speed = $state(1);
  ready = $state(false);
  trouble = $state<Trouble | null>(null);
  /** width / height of the picture */
  shape = $state(16 / 9);

  /** Called at each frame that is shown while playing. */
  onframe: (() => void) | null = null;

  #video: HTMLVideoElement | null = null;
  #file: File | null = null;
  #address = '';
  #frames: number[] = [];
  #turn: Promise<unknown> = Promise.resolve();

  /** For `{@attach player.attach}`. */
  attach = (video: HTMLVideoElement): (() => void) => {
    this.#video = video;
    video.muted = true;
    video.addEventListener('play', () => (this.playing = true));
    video.addEventListener('pause', () => (this.playing = false));
    video.addEventListener('error', () => this.#failed());
    video.addEventListener('waiting', () => void this.#look());
    this.#listen();
    return () => this.close();
  };

  /** Opens a file; `false` where it does not play, with `trouble` set. */
  async open(file: File): Promise<boolean> {
    const video = this.#video;
    if (!video) return false;
    this.close();
    this.#video = video;
    this.#file = file;
    this.trouble = file.size === 0 ? 'empty' : null;
    if (this.trouble) return false;
    this.#address = URL.createObjectURL(file);
    const loaded = await loads(video, this.#address);
    if (this.#file !== file) return false; // another one was opened meanwhile
    // Sound alone loads without an error.
    if (!loaded || video.videoWidth === 0) {
      const there = await canBeRead(file);
      this.trouble = !there ? 'gone' : loaded ? 'no-picture' : 'cannot-play';
      return false;
    }
    this.shape = video.videoWidth / video.videoHeight;
    await this.#knowLength(video);
    this.ready = true;
    await this.goTo(0);
    return true;
  }

  close(): void {
    this.#video?.pause();
    if (this.#address !== '') {
      URL.revokeObjectURL(this.#address);
      this.#video?.removeAttribute('src');
      this.#video?.load();
    }
    this.#address = '';
    this.#file = null;
    this.#frames = [];
    this.ready = false;
    this.playing = false;
    this.shown = 0;
    this.duration = null;
    this.trouble = null;
  }

  /**
   * The frame that is on the screen at this moment, seconds. While it plays the page hears of a frame late, at four times
   * speed by several frames: the recording's own clock is asked instead, and set back to the beginning of its frame.
   */
  get now(): number {
    const video = this.#video;
    if (!video || !this.playing) return this.shown;
    const { seconds, even } = frameGap(this.#frames);
    const since = video.currentTime - this.shown;
    if (since <= 0) return this.shown;
    return even ? this.shown + Math.floor(since / seconds + 1e-3) * seconds : video.currentTime;
  }

  toggle = (): Promise<void> => (this.playing ? this.pause() : this.play());

  play = (): Promise<void> =>
    this.#inTurn(async (video) => {
      if (video.ended) await this.#seek(video, 0);
      video.playbackRate = this.speed;
      // Refused where the file is gone: said by the look at it.
      await video.play().catch(() => this.#look());
    });

  pause = (): Promise<void> => this.#inTurn((video) => Promise.resolve(video.pause()));

  setSpeed(speed: number): void {
    this.speed = speed;
    if (this.#video) this.#video.playbackRate = speed;
  }

  /** Shows the frame at a place; where it lies outside of the recording, the first or the last. */
  goTo = (seconds: number): Promise<void> =>
    this.#inTurn(async (video) => {
      video.pause();
      await this.#seek(video, seconds);
    });

  /** One frame on or back. */
  frame = (way: 1 | -1): Promise<void> =>
    this.#inTurn(async (video) => {
      video.pause();
      const seek = (to: number) => this.#seek(video, to);
      if (way === 1) await frameAfter(seek, this.shown, frameGap(this.#frames), this.#end(video));
      else await frameBefore(seek, this.shown);
    });

  /** On or back by seconds, to the frame there. */
  by = (seconds: number): Promise<void> =>
    this.#inTurn(async (video) => {
      video.pause();
      const half = frameGap(this.#frames).seconds / 2;
      await this.#seek(video, this.shown + half + seconds);
    });

  /** Goes on behind a place that cannot be read. */
  async goOnAfter(): Promise<void> {
    const [file, at] = [this.#file, this.shown];
    if (!file) return;
    if (await this.open(file)) await this.goTo(at + 2);
  }

  /** Resolves when what was asked so far has been done: what is shown then is what a mark means. */
  settled = (): Promise<void> => this.#inTurn(() => Promise.resolve());

  #inTurn(act: (video: HTMLVideoElement) => Promise<unknown>): Promise<void> {
    const done = this.#turn.then(async () => {
      if (this.#video && this.ready) await act(this.#video);
    });
    this.#turn = done.catch(() => undefined);
    return done;
  }

  #end = (video: HTMLVideoElement): number => this.duration ?? (Number.isFinite(video.duration) ? video.duration : 1e6);

  /**
   * A picture asked for earlier may come late, on a busy machine after the seek for the next has begun. So a picture is
   * taken for the one at this place only where its frame can hold it; where that is not sure, news is waited for.
   * @returns beginning of the frame shown there
   */
  #seek(video: HTMLVideoElement, to: number): Promise<number> {
    const at = Math.min(Math.max(0, to), Math.max(0, this.#end(video) - 0.001));
    const gap = frameGap(this.#frames).seconds;
    const holds = (frame: number) => frame <= at + 0.001 && at - frame < gap;
    return new Promise((resolve) => {
      let frame: number | null = null;
      let there = false;
      let over = false;
      let quiet: ReturnType<typeof setTimeout> | undefined;
      const end = (seen: number | null) => {
        over = true;
        clearTimeout(quiet);
        clearInterval(watch);
        if (seen !== null) this.#saw(seen);
        resolve(this.shown);
      };
      const news = () => {
        if (over || !there) return;
        clearTimeout(quiet);
        // A seek within the frame that is shown brings no new one where the browser sees no need.
        const seen = frame ?? this.shown;
        if (frame !== null && holds(frame)) end(frame);
        else quiet = setTimeout(() => end(seen), holds(seen) ? SAME_FRAME : NOTHING_NEW);
      };
      const hear = () =>
        video.requestVideoFrameCallback((_, { mediaTime }) => {
          if (over) return;
          frame = mediaTime;
          news();
          hear();
        });
      hear();
      const arrived = () => {
        there = true;
        news();
      };
      video.addEventListener('seeked', arrived, { once: true });
      const watch = setInterval(() => {
        void this.#look().then((trouble) => {
          if (!trouble || over) return;
          video.removeEventListener('seeked', arrived);
          end(null);
        });
      }, PATIENCE);
      video.currentTime = at;
    });
  }

  /** Why does nothing come? The file may be gone: a stick pulled out brings no error, it plays on from what was read. */
  async #look(): Promise<Trouble | null> {
    const [file, video] = [this.#file, this.#video];
    if (!file || !video) return null;
    await new Promise((resolve) => setTimeout(resolve, PATIENCE));
    if (this.#file !== file || (!video.seeking && video.readyState > 2)) return null;
    this.trouble = (await canBeRead(file)) ? 'damaged' : 'gone';
    video.pause();
    return this.trouble;
  }

  #failed(): void {
    const file = this.#file;
    if (!file || !this.ready) return;
    void canBeRead(file).then((there) => (this.trouble = there ? 'damaged' : 'gone'));
  }

  async #knowLength(video: HTMLVideoElement): Promise<void> {
    if (!Number.isFinite(video.duration)) {
      const there = new Promise((resolve) => {
        video.addEventListener('seeked', resolve, { once: true });
        setTimeout(resolve, PATIENCE);
      });
      video.currentTime = BEHIND_THE_END;
      await there;
    }
    this.duration = Number.isFinite(video.duration) && video.duration > 0 ? video.duration : null;
  }

  #saw(frame: number): void {
    this.shown = frame;
    if (this.#frames.at(-1) !== frame) this.#frames = [...this.#frames.slice(-FRAMES_KEPT), frame];
  }

  #listen(): void {
    const video = this.#video;
    if (!video) return;
    video.requestVideoFrameCallback((_, { mediaTime }) => {
      if (this.#video !== video) return;
      if (this.playing && this.ready) {
        this.shown = mediaTime;
        // Faster than at normal speed frames are left out, and tell nothing of their length.
        if (video.playbackRate <= 1) this.#saw(mediaTime);
        this.onframe?.();
      }
      this.#listen();
    });
  }
}

/** Does it load, up to a first picture? */
const loads = (video: HTMLVideoElement, address: string): Promise<boolean> =>
  new Promise((resolve) => {
    const over = new AbortController();
    const answer = (well: boolean) => () => {
      over.abort();
      resolve(well);
    };
    video.addEventListener('loadeddata', answer(true), { signal: over.signal });
    video.addEventListener('error', answer(false), { signal: over.signal });
    video.preload = 'auto';
    video.src = address;
  });
