import { tick } from 'svelte';

type Control = HTMLInputElement | HTMLTextAreaElement | HTMLSelectElement;
type Entered = { control: Control; value: string; checked: boolean; options: readonly boolean[] };

const CONTROLS = 'input, textarea, select';

/**
 * What was chosen or typed on a page before its scripts ran. Taking the page over sets some fields back to what the
 * server sent; the answer given here puts in again what the person had entered, and tells the page as if it were entered
 * now. Fields that the page shows only after another answer are found again by name.
 */
export function enteredEarly(page: ParentNode): () => Promise<void> {
  const kept = controlsOf(page).filter(isEntered).map(held);
  return () => putBack(page, kept);
}

const controlsOf = (page: ParentNode) => [...page.querySelectorAll<Control>(CONTROLS)];

function isEntered(control: Control): boolean {
  if (control instanceof HTMLSelectElement)
    return [...control.options].some(({ selected, defaultSelected }) => selected !== defaultSelected);
  if (control instanceof HTMLInputElement && control.checked !== control.defaultChecked) return true;
  return control.value !== control.defaultValue;
}

const held = (control: Control): Entered => ({
  control,
  value: control.value,
  checked: control instanceof HTMLInputElement && control.checked,
  options: control instanceof HTMLSelectElement ? [...control.options].map(({ selected }) => selected) : [],
});

/** Round by round, because one answer can bring out the next question; over when a round finds none. */
async function putBack(page: ParentNode, kept: readonly Entered[]): Promise<void> {
  for (const one of kept) if (one.control.isConnected) enter(one.control, one);
  let away = kept.filter(({ control }) => !control.isConnected);
  for (let found = true; found && away.length > 0;) {
    await tick();
    const still = away.filter((one) => {
      const now = inItsPlace(page, one);
      if (now) enter(now, one);
      return !now;
    });
    found = still.length < away.length;
    away = still;
  }
}

/** The same question as the page asks it now, perhaps with other means: a list to choose from may have become buttons. */
function inItsPlace(page: ParentNode, { control, value, checked }: Entered): Control | undefined {
  // A file cannot be put anywhere by a script; where its field stayed, the file stayed in it.
  if (control.type === 'file' || (control.type === 'radio' && !checked)) return undefined;
  return controlsOf(page).find((now) => now.name === control.name && (!isTicked(now) || now.value === value));
}

const isTicked = ({ type }: Control) => type === 'radio' || type === 'checkbox';

function enter(now: Control, { control, value, checked, options }: Entered): void {
  if (now instanceof HTMLInputElement && isTicked(now)) now.checked = checked || !isTicked(control);
  else if (now instanceof HTMLSelectElement && now.multiple)
    [...now.options].forEach((option, at) => (option.selected = options[at] ?? false));
  else if (now.value !== value) now.value = value;
  for (const told of ['input', 'change']) now.dispatchEvent(new Event(told, { bubbles: true }));
}
