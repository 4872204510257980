/** Words our own addresses and form fields already use; the last is a name that every object answers to. */
const RESERVED = ['new', 'more', 'as-usual', 'eyes', 'rehearsals', 'constructor'];
const LONGEST = 60;

/**
 * An id from what a person wrote: lower-case letters, digits and hyphens, not taken yet. Text without any such sign (another
 * script) gets `otherwise`. The id never shows on a screen; it only has to stay the same when the words change.
 */
export function slugFrom(text: string, taken: Iterable<string>, otherwise = 'own'): string {
  const known = new Set([...taken, ...RESERVED]);
  const plain = text
    .normalize('NFD')
    .replace(/\p{Diacritic}/gu, '')
    .toLowerCase()
    .replace(/[^a-z0-9]+/g, '-')
    .replace(/^-+|-+$/g, '')
    .slice(0, LONGEST - 4)
    .replace(/-+$/, '');
  const base = plain === '' ? otherwise : plain;
  if (!known.has(base)) return base;
  let number = 2;
  while (known.has(`${base}-${number}`)) number += 1;
  return `${base}-${number}`;
}
