import { enhance as sentWithoutLeaving } from '$app/forms';
import type { SubmitFunction } from '@sveltejs/kit';

/** Told to a form whose answer was no answer: nothing it holds is stored, and all of it is still there. */
export const NOT_STORED = 'not-stored';

const NO_ANSWER =
  'No answer came, so it is not known whether it was stored; what you entered is still here. This program may have been stopped, or what was sent was too large. Start it again if it was, look whether it was stored, and press once more if not.';

/**
 * Kit's `enhance`, for every form of ours. An answer that would lead to the error page, or none at all, leaves the page as
 * it is: what was typed stays in its fields, is said to be there, and goes with the next press.
 */
export const enhance: typeof sentWithoutLeaving = (form, submit) =>
  sentWithoutLeaving(form, async (input) => {
    const answered = await submit?.(input);
    return async (given: Answer) => {
      const { result } = given;
      if (result.type !== 'error') {
        said(form)?.remove();
        return answered ? answered(given as never) : given.update();
      }
      form.dispatchEvent(new Event(NOT_STORED));
      // A network that fails is an error without a status; what our server says of itself has one.
      const why = String((result.error as { message?: unknown })?.message ?? '');
      say(form, result.status === undefined ? NO_ANSWER : `Not stored; what you entered is still here. ${why}`);
    };
  });

type Answer = Parameters<Exclude<Awaited<ReturnType<SubmitFunction>>, void>>[0];

const said = (form: HTMLFormElement) => form.querySelector('[data-not-stored]');

function say(form: HTMLFormElement, words: string): void {
  said(form)?.remove(); // made anew, so that it is read out again
  const line = document.createElement('p');
  line.dataset.notStored = '';
  line.className = 'not-stored';
  line.setAttribute('role', 'alert');
  line.tabIndex = -1;
  line.textContent = words;
  form.append(line);
  line.focus();
}
