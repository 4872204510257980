/** A ratio of window to start as per cent: 0.82 → "18 % less", 1.14 → "14 % more", 1 → "no difference". */
export function lessOrMore(ratio: number): string {
  const percent = Math.round((ratio - 1) * 100);
  if (percent === 0) return 'no difference';
  return percent < 0 ? `${-percent}\u00A0% less` : `${percent}\u00A0% more`;
}

/** An interval of such ratios, the end nearest the estimate's side first: "9 to 26 % less", "from 17 % less to 6 % more". */
export function rangeOfRatios(low: number, high: number): string {
  const [from, to] = [Math.round((low - 1) * 100), Math.round((high - 1) * 100)];
  if (to < 0) return `${-to} to ${-from}\u00A0% less`;
  if (from > 0) return `${from} to ${to}\u00A0% more`;
  return `from ${lessOrMore(low)} to ${lessOrMore(high)}`;
}

/** A chance in tenths: 0.61 → "about 6 times in 10". The ends are never rounded to certainty. */
export function timesInTen(chance: number): string {
  const tenths = Math.round(chance * 10);
  if (tenths <= 0) return 'less than 1 time in 10';
  if (tenths >= 10) return 'more than 9 times in 10';
  return tenths === 1 ? 'about 1 time in 10' : `about ${tenths} times in 10`;
}

/** A share of re-draws as a whole number of 100; never 0 or 100 unless it is exactly so. */
export function ofHundred(share: number): number {
  if (share <= 0 || share >= 1) return Math.round(share * 100);
  return Math.min(99, Math.max(1, Math.round(share * 100)));
}

/** A rate in 100 as people read it: 0.0004 → "0.04", 0.089 → "8.9", 0.139 → "14". */
export function inHundred(rate: number): string {
  const value = rate * 100;
  if (value >= 10) return String(Math.round(value));
  // Halves go up, also where the computer's 0.0195 lies a hair below 1.95 in 100.
  const to = (places: number) => String(Math.round(value * places * (1 + Number.EPSILON)) / places);
  return value >= 0.1 ? to(10) : to(100);
}

/**
 * How many times as long, with its interval, all three to the same precision: 1.7 (1.4 to 2.1). Two decimals below 1, and
 * where one would print an end of the interval as the 1 that it does not hold: 1.13 (1.04 to 1.22).
 */
export function timesAsLong({ ratio, low, high }: { ratio: number; low: number; high: number }): {
  ratio: string;
  low: string;
  high: string;
} {
  const three = [ratio, low, high];
  const touches = three.some((value) => value !== 1 && Number(value.toFixed(1)) === 1);
  const places = ratio >= 10 ? 0 : touches || low < 1 ? 2 : 1;
  const said = (value: number) => String(Number(value.toFixed(places)));
  return { ratio: said(ratio), low: said(low), high: said(high) };
}

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

/** Whose cases a reference set holds: "24 cases of 3 other surgeons", never to be read as the surgeon's own. */
export function othersCases({ n, readers }: { n: number; readers: number }): string {
  return `${counted(n, 'case')} of ${readers === 1 ? 'another surgeon' : `${readers} other surgeons`}`;
}

/** A label at the head of a sentence. */
export function capital(text: string): string {
  return text.charAt(0).toUpperCase() + text.slice(1);
}

/** A step label inside a sentence: "Capsulorhexis" → "capsulorhexis", abbreviations left alone. */
export function inSentence(label: string): string {
  return /^[A-Z][a-z]/.test(label) ? label.charAt(0).toLowerCase() + label.slice(1) : label;
}
