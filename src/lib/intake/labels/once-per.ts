/** Computes something once per object and forgets it with the object. For results that depend on nothing else. */
export function oncePer<K extends object, V>(make: (key: K) => V): (key: K) => V {
  const made = new WeakMap<K, V>();
  return (key) => {
    const found = made.get(key);
    if (found !== undefined) return found;
    const value = make(key);
    made.set(key, value);
    return value;
  };
}
