/** `Map.groupBy`, which Node 20 does not have yet. */
export function groupBy<T, Key>(values: Iterable<T>, keyOf: (value: T) => Key): Map<Key, T[]> {
  const groups = new Map<Key, T[]>();
  for (const value of values) {
    const key = keyOf(value);
    const group = groups.get(key);
    if (group) group.push(value);
    else groups.set(key, [value]);
  }
  return groups;
}
