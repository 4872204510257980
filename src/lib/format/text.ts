/** "a", "a and b", "a, b and c". */
export function listed(words: readonly string[]): string {
  if (words.length < 2) return words.join('');
  return `${words.slice(0, -1).join(', ')} and ${words[words.length - 1]}`;
}

/** "1 case", "9 cases", "12,000 rows". */
export function counted(n: number, one: string, many = `${one}s`): string {
  const figure = n >= 10_000 ? n.toLocaleString('en-GB') : String(n);
  return `${figure} ${n === 1 ? one : many}`;
}

/** The start of a sentence. */
export function capital(text: string): string {
  return text.charAt(0).toUpperCase() + text.slice(1);
}

/** A label inside a sentence: "Capsulorhexis" → "capsulorhexis"; "IOL insertion" stays. */
export function inSentence(label: string): string {
  return /^[A-Z][a-z]/.test(label) ? label.charAt(0).toLowerCase() + label.slice(1) : label;
}
