import { deserialize } from '$app/forms';
import type { ActionResult } from '@sveltejs/kit';

/**
 * Sends a form that holds a large file as `use:enhance` would, and tells how much of it the server has read: it reads
 * while it arrives, so this is its progress too. `fetch` tells nothing of what it sends.
 * @param heard the share read, 0..1
 * @param over ends the sending
 * @returns what the action answered; a sentence of the server that is no action's comes as a failure of `file`
 * @throws Error where no server answers, or it was ended
 */
export function sendWithProgress(
  to: URL,
  form: FormData,
  heard: (share: number) => void,
  over?: AbortSignal,
): Promise<ActionResult> {
  return new Promise((resolve, reject) => {
    const request = new XMLHttpRequest();
    request.open('POST', to);
    request.setRequestHeader('accept', 'application/json');
    request.setRequestHeader('x-sveltekit-action', 'true');
    request.upload.onprogress = ({ loaded, total }) => heard(total > 0 ? loaded / total : 0);
    request.onerror = () => reject(new Error('no answer'));
    request.onabort = () => reject(new Error('ended'));
    over?.addEventListener('abort', () => request.abort());
    request.onload = () => {
      try {
        resolve(deserialize(request.responseText));
      } catch {
        const errors = [{ field: 'file', message: request.responseText.slice(0, 300) }];
        resolve({ type: 'failure', status: request.status, data: { errors } });
      }
    };
    // As a browser sends it: without a file a form is not in parts.
    const texts = [...form].flatMap(([name, value]) => (typeof value === 'string' ? [[name, value]] : []));
    request.send(texts.length === [...form].length ? new URLSearchParams(texts) : form);
  });
}
