/**
 * The item at an index that must be there.
 * @throws RangeError where it is not: a slip of ours, which must not go on as `undefined` or `NaN`
 */
export function itemAt<T>(list: ArrayLike<T | undefined>, index: number): T {
  const item = list[index];
  if (item === undefined) throw new RangeError(`No item at ${index} of ${list.length}`);
  return item;
}
