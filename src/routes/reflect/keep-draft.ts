/**
 * Keeps what is typed a second after the last key, and at once when the page is left or put aside, so that nothing is
 * lost when the phone rings. Not once the form itself has been sent: a draft that arrived after its note would come back.
 * @param action where the draft goes
 * @param said what to tell the writer
 */
export const keepDraft =
  (action: () => string, said: (words: string) => void) =>
  (form: HTMLFormElement): (() => void) => {
    let timer: ReturnType<typeof setTimeout> | undefined;
    // Noted while typing: by the time the page is left, the address and the page's data are those of the next one.
    let to = new URL(location.href);

    // Nobody waits for this, so it says itself how it went.
    const keep = () => {
      timer = undefined;
      const failed = () => said('The draft could not be kept; your text is still on this page.');
      fetch(to, {
        method: 'POST',
        body: new FormData(form),
        headers: { 'x-sveltekit-action': 'true' },
        keepalive: true,
      }).then(({ ok }) => (ok ? said('Draft kept.') : failed()), failed);
    };
    const later = () => {
      clearTimeout(timer);
      said('');
      to = new URL(action(), location.href);
      timer = setTimeout(keep, 1000);
    };
    const now = () => {
      if (timer === undefined || document.visibilityState === 'visible') return;
      clearTimeout(timer);
      keep();
    };
    const sent = () => {
      clearTimeout(timer);
      timer = undefined;
    };

    form.addEventListener('input', later);
    form.addEventListener('submit', sent);
    document.addEventListener('visibilitychange', now);
    return () => {
      // Going to another room here changes the page without hiding it.
      if (timer !== undefined) {
        clearTimeout(timer);
        keep();
      }
      form.removeEventListener('input', later);
      form.removeEventListener('submit', sent);
      document.removeEventListener('visibilitychange', now);
    };
  };
