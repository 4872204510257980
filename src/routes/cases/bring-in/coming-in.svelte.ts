import { applyAction } from '$app/forms';
import { sendWithProgress } from '$lib/ui/send-with-progress';
import type { SubmitFunction } from '@sveltejs/kit';

/** A file on its way: sent, then read before it is shown. It can be stopped at any moment; nothing is stored by then. */
export class ComingIn {
  stage = $state<'none' | 'sending' | 'reading'>('none');
  /** 0..1 */
  share = $state(0);
  said = $state<'' | 'stopped' | 'gone' | 'refused'>('');
  /** What the server said where it refused. */
  why = $state('');
  #over = new AbortController();

  submit: SubmitFunction = async ({ action, formData, cancel }) => {
    cancel();
    if (this.stage !== 'none') return;
    const over = (this.#over = new AbortController());
    [this.stage, this.share, this.said] = ['sending', 0, ''];
    let held: string | null = null;
    try {
      const answer = await sendWithProgress(action, formData, (share) => (this.share = share), over.signal);
      if (answer.type === 'redirect') {
        held = answer.location;
        [this.stage, this.share] = ['reading', 0];
        await readAhead(held, (share) => (this.share = share), over.signal);
      }
      if (answer.type === 'error') {
        this.said = 'refused';
        this.why = String((answer.error as { message?: unknown }).message ?? '');
      } else await applyAction(answer);
    } catch {
      this.said = over.signal.aborted ? 'stopped' : 'gone';
      // What had arrived is let go of at once, not after an hour.
      if (held !== null && over.signal.aborted) void drop(held);
    }
    this.stage = 'none';
  };

  stop = (): void => this.#over.abort();
}

/** Follows the reading of a held file to its end. */
async function readAhead(page: string, heard: (share: number) => void, over: AbortSignal): Promise<void> {
  const answer = await fetch(`${page}/reading`, { signal: over });
  const reader = answer.body?.pipeThrough(new TextDecoderStream()).getReader();
  for (;;) {
    const { done, value } = (await reader?.read()) ?? { done: true, value: undefined };
    if (done) return;
    const share = Number(value.trim().split('\n').at(-1));
    if (Number.isFinite(share)) heard(share);
  }
}

const drop = (page: string): Promise<unknown> =>
  fetch(`${page}?/drop`, {
    method: 'POST',
    body: new URLSearchParams(),
    headers: { 'x-sveltekit-action': 'true' },
  }).catch(
    () => undefined, // then it goes by itself, after an hour
  );
