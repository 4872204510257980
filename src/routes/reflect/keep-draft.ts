import { NOT_STORED } from '$lib/ui/enhance';
import { dropHere, keepHere, placeHere, putBackHere } from './kept-here';

/**
 * Keeps what is typed a second after the last key, and at once when the page is left or put aside, so that nothing is
 * lost when the phone rings; in the browser from the first key until the server has it. Not once the form itself has been
 * sent: a draft that arrived after its note would come back.
 * @param action where the draft goes
 * @param said what to tell the writer
 */
export const keepDraft =
  (action: () => string, said: (words: string) => void) =>
  (form: HTMLFormElement): (() => void) => {
    let timer: ReturnType<typeof setTimeout> | undefined;
    let sent = false;
    // Noted while typing: by the time the page is left, the address and the page's data are those of the next one.
    let to = new URL(location.href);
    const place = placeHere();
    form.dataset.keepsItself = ''; // and so Back need not (ui/typed-before.ts)

    // Nobody waits for this, so it says itself how it went.
    const keep = () => {
      timer = undefined;
      const failed = () =>
        said('The draft could not be stored; your text is still on this page, and kept in this tab.');
      fetch(to, {
        method: 'POST',
        body: new FormData(form),
        headers: { 'x-sveltekit-action': 'true' },
        keepalive: true,
      }).then(({ ok }) => {
        if (!ok) return failed();
        if (timer === undefined) dropHere(place);
        said('Draft kept.');
      }, failed);
    };
    const later = () => {
      clearTimeout(timer);
      said('');
      sent = false;
      keepHere(place, form);
      to = new URL(action(), location.href);
      timer = setTimeout(keep, 1000);
    };
    const now = () => {
      if (timer === undefined || document.visibilityState === 'visible') return;
      clearTimeout(timer);
      keep();
    };
    const sending = ({ submitter }: SubmitEvent) => {
      clearTimeout(timer);
      timer = undefined;
      // A preview stores nothing: what is kept here stays.
      sent = !submitter?.getAttribute('formaction')?.includes('preview');
    };
    const notStored = () => {
      sent = false;
      keepHere(place, form);
    };

    if (putBackHere(place, form)) said('Your text from before is here again; it has not been stored yet.');
    form.addEventListener('input', later);
    form.addEventListener('submit', sending);
    form.addEventListener(NOT_STORED, notStored);
    document.addEventListener('visibilitychange', now);
    return () => {
      // Going to another room here changes the page without hiding it.
      if (timer !== undefined) {
        clearTimeout(timer);
        keep();
      }
      if (sent) dropHere(place);
      form.removeEventListener('input', later);
      form.removeEventListener('submit', sending);
      form.removeEventListener(NOT_STORED, notStored);
      document.removeEventListener('visibilitychange', now);
    };
  };
