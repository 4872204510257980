/**
 * Freezes a value of plain objects and arrays all the way down and returns it.
 * The store hands out its own objects instead of copies (a copy of 20,000 cases costs more than reading them from disk);
 * frozen, a screen that changes one by mistake fails at once instead of changing the record unsaved.
 */
export function frozen<T>(value: T): T {
  if (typeof value === 'object' && value !== null && !Object.isFrozen(value)) {
    Object.freeze(value);
    for (const inner of Object.values(value)) frozen(inner);
  }
  return value;
}
