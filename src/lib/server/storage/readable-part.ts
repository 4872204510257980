import { StorageError } from './port';

/** Codes of what is wrong with a file on its own; the rest of the record can go on. */
const DAMAGE: readonly StorageError['code'][] = ['unreadable', 'missing', 'newer'];

export const isDamage = (why: unknown): why is StorageError => why instanceof StorageError && DAMAGE.includes(why.code);

/** What `read` gives, or `otherwise` where its document cannot be read. */
export function readable<Answer, Other>(read: () => Answer, otherwise: Other): Answer | Other {
  try {
    return read();
  } catch (why) {
    if (isDamage(why)) return otherwise;
    throw why;
  }
}
