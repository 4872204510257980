type Control = HTMLInputElement | HTMLTextAreaElement | HTMLSelectElement;

/** A field somebody had entered something in: where it stands on its page, and what it held. */
export type Typed = {
  action: string;
  name: string;
  /** Of fields with the same name in the same form. */
  nth: number;
  value: string;
  checked: boolean;
};

const touched = new Set<Control>();

/** To be told of everything that is entered on a page, by hand or put back. */
export function heedTyping(page: Document): () => void {
  const heed = ({ target }: Event) => {
    if (isControl(target)) touched.add(target);
  };
  for (const told of ['input', 'change']) page.addEventListener(told, heed, true);
  return () => {
    for (const told of ['input', 'change']) page.removeEventListener(told, heed, true);
  };
}

/**
 * What stands in the fields that were touched, for when somebody comes back to this page: kept by the browser for as long
 * as the tab is open. Only of forms that store something, and not of one that keeps its own draft; never a passphrase.
 */
export function typedNow(): Typed[] {
  for (const control of touched) if (!control.isConnected) touched.delete(control);
  return [...touched].flatMap((control) => {
    const { form, name, value } = control;
    if (!form || name === '' || form.method !== 'post' || 'keepsItself' in form.dataset || isSecret(control)) return [];
    return [{ action: actionOf(form), name, nth: alike(form, name).indexOf(control), value, checked: isOn(control) }];
  });
}

/** Puts it in again and tells the page, as if it were entered now; a field that is no longer there is passed over. */
export function typeAgain(page: ParentNode, typed: readonly Typed[]): void {
  for (const { action, name, nth, value, checked } of typed) {
    // Two forms of a page may do the same: cells that are pasted, a file that is chosen.
    const forms = [...page.querySelectorAll('form')].filter((one) => one.method === 'post' && actionOf(one) === action);
    const control = forms.map((form) => alike(form, name)[nth]).find((one) => one !== undefined);
    if (!control || isSecret(control)) continue;
    if (!isTicked(control)) {
      if (control.value === value) continue;
      control.value = value;
    } else if (control.value !== value || control.checked === checked) continue;
    else control.checked = checked;
    for (let box = control.closest('details'); box; box = box.parentElement?.closest('details') ?? null)
      box.open = true;
    for (const told of ['input', 'change']) control.dispatchEvent(new Event(told, { bubbles: true }));
  }
}

const isControl = (target: unknown): target is Control =>
  target instanceof HTMLInputElement || target instanceof HTMLTextAreaElement || target instanceof HTMLSelectElement;
const isTicked = (control: Control): control is HTMLInputElement => /^(radio|checkbox)$/.test(control.type);
const isOn = (control: Control): boolean => isTicked(control) && control.checked;
const isSecret = ({ type }: Control): boolean => /^(hidden|file|password)$/.test(type);
const actionOf = (form: HTMLFormElement): string => form.getAttribute('action') ?? '';
const alike = (form: HTMLFormElement, name: string): Control[] =>
  [...form.elements].filter((one): one is Control => isControl(one) && one.name === name);
