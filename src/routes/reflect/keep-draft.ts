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

    const keep = async () => {
      timer = undefined;
      const answer = await fetch(to, {
        method: 'POST',
        body: new FormData(form),
        headers: { 'x-sveltekit-action': 'true' },
        keepalive: true,
      }).catch(() => null);
      said(answer?.ok ? 'Draft kept.' : 'The draft could not be kept; your text is still on this page.');
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
      void keep();
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
        void keep();
      }
      form.removeEventListener('input', later);
      form.removeEventListener('submit', sent);
      document.removeEventListener('visibilitychange', now);
    };
  };
