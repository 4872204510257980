import { fingerprintOf, START } from '$lib/recording';
import { Player } from '$lib/ui/recording/player.svelte';
import type { PageData } from './$types';

export type SideData = PageData['sides'][number];

/** One of the two recordings, at its own stretch of the step. */
export class Side {
  readonly player = new Player();
  /** The open file is not the recording of the case. */
  other = $state(false);
  /** Another surgeon's recording, opened in the place of one's own. */
  reference = $state(false);
  /** Moments of a reference recording: of this page alone. */
  ownTimes = $state<Record<string, number>>({});

  constructor(readonly data: SideData) {
    this.player.onframe = () => this.#endWithStep();
  }

  #endWithStep(): void {
    const last = this.reference ? Infinity : Math.max(...this.data.stretches.map(({ end }) => end));
    if (Number.isFinite(last) && this.player.shown >= last) void this.player.pause();
  }

  async open(file: File): Promise<void> {
    this.other = false;
    if (!(await this.player.open(file))) return;
    const known = this.data.recording;
    if (!this.reference && known)
      this.other = file.size !== known.size || (await fingerprintOf(file)) !== known.fingerprint;
    await this.goTo(START, this.data.times);
  }

  /** Is it the recording of this case? Its size tells most of them apart without reading any. */
  async isIn(files: readonly File[]): Promise<File | null> {
    const known = this.data.recording;
    for (const file of files)
      if (known && file.size === known.size && (await fingerprintOf(file)) === known.fingerprint) return file;
    return null;
  }

  /** @param times as the record has them; a reference recording has its own */
  async goTo(moment: string, times: Readonly<Record<string, number>>): Promise<void> {
    const at = (this.reference ? this.ownTimes : times)[moment];
    // The middle of the frame: its beginning may show the one before.
    if (at !== undefined) await this.player.goTo(at + 0.004);
  }
}
