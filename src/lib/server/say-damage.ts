import { error, isHttpError } from '@sveltejs/kit';
import { faultOf, noteFault } from './faults';
import type { Store } from './storage/port';
import { isDamage } from './storage/readable-part';

/** What pages ask; a change that a damaged file forbids is said beside the form instead. */
const READS: readonly (keyof Store)[] = [
  'profile',
  'procedures',
  'lists',
  'cases',
  'caseById',
  'heldImport',
  'heldImports',
  'goals',
  'results',
  'reflections',
  'references',
  'everything',
];

const NOT_NOW = 503;

/** The store for a request: a page that needs a file that cannot be read says so, and is not an unexpected error. */
export const sayingDamage = (store: Store): Store =>
  new Proxy(store, {
    get(target, verb) {
      const value: unknown = Reflect.get(target, verb);
      if (typeof value !== 'function' || !READS.some((each) => each === verb)) return value;
      return async (...asked: unknown[]) => {
        try {
          return (await Reflect.apply(value, target, asked)) as unknown;
        } catch (why) {
          if (isDamage(why)) error(NOT_NOW, { message: why.message, damaged: true });
          throw why;
        }
      };
    },
  });

/** What `read` gives, or `otherwise` where it needs a file that cannot be read. */
export function orDamaged<Answer, Other>(read: () => Answer, otherwise: Other): Answer | Other {
  try {
    return read();
  } catch (why) {
    if (isHttpError(why, NOT_NOW)) return otherwise;
    throw why;
  }
}

/**
 * As `orDamaged`, and what goes wrong unexpectedly is noted and left out too: for what stands on every page, which would
 * otherwise close them all.
 */
export function orAtFault<Answer, Other>(read: () => Answer, otherwise: Other): Answer | Other {
  try {
    return orDamaged(read, otherwise);
  } catch (why) {
    const id = noteFault(faultOf(why, 'what stands on every page', new Date().toISOString()));
    console.error(`error ${id}: what stands on every page`, why);
    return otherwise;
  }
}
