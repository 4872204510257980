/** One field of a row, as far as keys go: what each key means there. */
export type WalkField =
  | { kind: 'keys'; name: string; keys: Readonly<Record<string, string>>; stay?: readonly string[] }
  | { kind: 'letters'; name: string; letters: readonly string[] };

export type Step = {
  /** New texts of fields, by name. */
  set: Readonly<Record<string, string>>;
  /** Where to go: a number of fields on or back, or staying. */
  move: number;
  /** The key was ours: the browser must not also act on it. */
  taken: boolean;
};

const nothing: Step = { set: {}, move: 0, taken: false };

/**
 * What a key does in a field: an answer fills it and moves on, `0` under "anything else" is none and moves on, letters
 * gather until Enter, Backspace empties and goes back. Anything else is left to the browser.
 */
export function keyStep(key: string, field: WalkField, text: string): Step {
  const upper = key.length === 1 ? key.toUpperCase() : key;
  if (key === 'Enter') return { set: {}, move: 1, taken: true };
  if (key === 'Backspace' && (field.kind === 'keys' || text === ''))
    return { set: { [field.name]: '' }, move: text === '' ? -1 : 0, taken: true };
  if (key.length !== 1 || key === ' ') return nothing;

  if (field.kind === 'keys') {
    const answer = field.keys[upper];
    // A key with no meaning here is swallowed: the browser would jump to some option by its first letter.
    if (answer === undefined) return { ...nothing, taken: true };
    return { set: { [field.name]: answer }, move: field.stay?.includes(answer) ? 0 : 1, taken: true };
  }
  if (upper === '0') return { set: { [field.name]: '0' }, move: 1, taken: true };
  if (!field.letters.includes(upper)) return { ...nothing, taken: true };
  const letters = text.replace('0', '').toUpperCase();
  const next = letters.includes(upper) ? letters.replace(upper, '') : letters + upper;
  return { set: { [field.name]: next }, move: 0, taken: true };
}
