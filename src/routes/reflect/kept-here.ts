type Control = HTMLInputElement | HTMLTextAreaElement | HTMLSelectElement;

/** Where the text of the page that is open is kept; noted while it is, since by the time it is left the address is the next one's. */
export const placeHere = (): string => `not-stored:${location.pathname}${location.search}`;

/** What is in the form, kept in this tab of the browser until the server has it: it may be gone, or not let write. */
export function keepHere(place: string, form: HTMLFormElement): void {
  const entries = [...new FormData(form)].filter(([, value]) => typeof value === 'string');
  try {
    sessionStorage.setItem(place, JSON.stringify(entries));
  } catch {
    // a browser that keeps nothing: the text is still on the page
  }
}

export function dropHere(place: string): void {
  try {
    sessionStorage.removeItem(place);
  } catch {
    // a browser that keeps nothing has nothing to drop
  }
}

/** Puts back what was kept in this tab and is not in the form as the server sent it. @returns whether there was any */
export function putBackHere(place: string, form: HTMLFormElement): boolean {
  let entries: [string, string][];
  try {
    entries = JSON.parse(sessionStorage.getItem(place) ?? '[]') as [string, string][];
  } catch {
    return false;
  }
  let changed = false;
  for (const control of form.querySelectorAll<Control>('textarea, select, input:not([type="hidden"])')) {
    const values = entries.flatMap(([name, value]) => (name === control.name ? [value] : []));
    if (entries.length === 0) return false;
    if (control instanceof HTMLInputElement && /^(radio|checkbox)$/.test(control.type)) {
      const checked = values.includes(control.value);
      if (checked === control.checked) continue;
      control.checked = checked;
    } else {
      const [value] = values;
      if (value === undefined || value === control.value) continue;
      control.value = value;
    }
    changed = true;
    control.dispatchEvent(new Event('change', { bubbles: true }));
  }
  return changed;
}
