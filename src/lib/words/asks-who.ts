import type { LooksLike } from '../persons';

/** Asked wherever a text looks like a person; `ui/Field.svelte` puts the tick beside it by these last words. */
export const asksWho = (found: readonly LooksLike[]): string =>
  `${found.map(({ bit, looksLike }) => `"${bit}" looks like ${looksLike}`).join('; ')}: leave it out, or say that it is none.`;
