import { itemAt } from '../../item-at';

/**
 * Slips of the finger between two words: letters missing, added, changed, or two neighbours changed about
 * (optimal string alignment distance, as in Boytsov 2011, "Indexing methods for approximate dictionary searching").
 *
 * @returns the number of slips, or `limit + 1` as soon as there are more than `limit`.
 */
export function slipsBetween(a: string, b: string, limit: number): number {
  if (Math.abs(a.length - b.length) > limit) return limit + 1;
  let before: number[] = [];
  let last = Array.from({ length: b.length + 1 }, (_, index) => index);
  for (let i = 1; i <= a.length; i += 1) {
    const row = [i];
    let least = i;
    for (let j = 1; j <= b.length; j += 1) {
      const same = a[i - 1] === b[j - 1] ? 0 : 1;
      let slips = Math.min(itemAt(last, j) + 1, itemAt(row, j - 1) + 1, itemAt(last, j - 1) + same);
      if (i > 1 && j > 1 && a[i - 1] === b[j - 2] && a[i - 2] === b[j - 1])
        slips = Math.min(slips, itemAt(before, j - 2) + 1);
      row.push(slips);
      least = Math.min(least, slips);
    }
    if (least > limit) return limit + 1;
    before = last;
    last = row;
  }
  return itemAt(last, b.length);
}

/** Slips forgiven in a word of this length: none in short ones, where one letter makes another word. */
export function slipsForgiven(length: number): number {
  if (length < 5) return 0;
  if (length < 8) return 1;
  return length < 13 ? 2 : 3;
}

/** The letters of a word as a set of 31 bits; two that share a bit only make two words look more alike. */
export function lettersOf(word: string): number {
  let letters = 0;
  for (let at = 0; at < word.length; at += 1) letters |= 1 << (word.charCodeAt(at) % 31);
  return letters;
}

/** At least so many slips lie between two words: each letter that only one has needs one, and a slip changes one. */
export function slipsAtLeast(a: number, b: number): number {
  return Math.max(bits(a & ~b), bits(b & ~a));
}

function bits(set: number): number {
  let count = 0;
  for (let left = set; left !== 0; left &= left - 1) count += 1;
  return count;
}
