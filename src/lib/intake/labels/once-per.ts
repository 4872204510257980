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

/** Texts kept with what was made of them: a file says the same few words over and over, and more are no words. */
const MOST_KEPT = 4_000;
/** A longer text is no word that comes again. */
const LONGEST_KEPT = 60;

/** Makes something of a text once while it comes again and again. For results that depend on the text alone. */
export function remembered<Made>(make: (text: string) => Made): (text: string) => Made {
  const known = new Map<string, Made>();
  return (text) => {
    const found = known.get(text);
    if (found !== undefined || text.length > LONGEST_KEPT) return found ?? make(text);
    const made = make(text);
    if (known.size >= MOST_KEPT) known.clear();
    known.set(text, made);
    return made;
  };
}
