import { named, plainWords } from '../labels/plain-words';

/** Names of rows that people put under a table and that are no cases, in seven languages (from memory), without accents. */
const NAMES = new Set([
  ...named(`mean, means, average, averages, avg, median, sd, stdev, std, deviation, sem, se, variance, total, totals,
    sum, subtotal, min, max, minimum, maximum, range, count, n, iqr, ci, percentile, quartile, target, usual`),
  ...named(`summe, gesamt, gesamtsumme, zwischensumme, mittel, mittelwert, durchschnitt, standardabweichung, anzahl,
    spannweite, spanne, ø, σ`),
  ...named(`moyenne, moy, somme, mediane, ecart, variance`),
  ...named(`media, promedio, suma, mediana, desviacion, minimo, maximo`),
  ...named(`somma, totale, deviazione, massimo`),
  ...named(`soma, desvio, ausat, kul, jod`),
]);

/** Words beside such a name that change nothing: "Total time of all cases". */
const BESIDE = new Set(
  named(`overall, grand, column, time, times, seconds, sec, s, d, st, value, values, all, of, per, and, the, my, in, case,
    cases, dev, standard, zeit, zeiten, aller, alle, der, pro, je, und, fall, falle, gesamtzeit, type, temps, de, des, par,
    tous, les, cas, et, tiempo, por, caso, casos, todos, y, estandar, tempo, per, casi, tutti, i, e, padrao, total`),
);

/**
 * Is a row named like this a mean, a total or the like? Every word must belong to such a name. A short name with a number
 * ("N-12", "SD 3") is more likely a code of a case, unless it says what it equals.
 */
export function isSummaryName(text: string): boolean {
  if (text.length > 60) return false;
  if (/^\s*[∑Σ⌀∅]\s*[:=]?\s*$/u.test(text)) return true;
  const words = plainWords(text).split(' ');
  const names = words.filter((word) => NAMES.has(word) || (word === 's' && words.includes('d')));
  if (names.length === 0) return false;
  const numbers = words.filter((word) => /^\d+$/.test(word));
  if (words.some((word) => !NAMES.has(word) && !BESIDE.has(word) && !/^\d+$/.test(word))) return false;
  const short = names.every((name) => name.length <= 3);
  return numbers.length === 0 || !short || /[=%(]/.test(text);
}
