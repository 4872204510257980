import { readFileSync } from 'node:fs';

/*
 * Published worked examples and certified values, each with its source, how it was verified and how closely it may be
 * held. `level`: A read in the source's own text and recomputed in R; B quoted in secondary public text and recomputed;
 * C the printed value is from memory only and agrees with R (tests say "from memory"); D no printed value found, a
 * formula or count recomputed by two routes.
 *
 * Looked at and left out, because nothing here computes them:
 *
 * | what                                                   | why not                                                         |
 * | ------------------------------------------------------ | --------------------------------------------------------------- |
 * | lag-1 autocorrelation (NIST univariate sets)           | cases of one list are handled by the intraclass correlation     |
 * | quantile types 1–6 and 9; NIST's percentile (type 6)   | one definition, type 8; type 7 only to compare with other tools |
 * | Huber's proposal 2 (MASS::hubers), Sn, IQR scale       | location uses the MAD scale                                     |
 * | BCa bootstrap interval                                 | intervals are plain percentiles of list resamples                |
 * | Hodges–Lehmann interval; conditional exact p with ties | only the shift itself is shown; ties go the normal way          |
 * | Levene's test about means                              | about medians only                                              |
 * | Theil–Sen intercepts                                   | only the slope is shown                                         |
 * | moving-range chart, limits from the median range       | single values only                                              |
 * | Siegmund's approximation to the CUSUM run length       | the integral equation is solved instead                         |
 * | CUSUM with fast initial response (Lucas and Crosier)   | no chart starts with a head start                               |
 * | CUSUM estimate of the new mean                         | the result is judged by the robust regression, not by a chart   |
 * | Bonferroni; binomial test p                            | not used                                                        |
 * | Fligner–Killeen, Ansari–Bradley                        | steadiness is judged by permutation; one common test compares   |
 * | g chart                                                | events are counted and watched by the CUSUM                     |
 *
 * What the tool does not use but is compared with (Brown–Forsythe, Qn, Wilson, least squares, average run lengths of
 * charts with a known centre, the path of a CUSUM) lies in `comparison/`.
 */
export type CheckValue<Input, Expected, Published> = {
  id: string;
  input: Input;
  expected: Expected;
  published: Published;
  tolerance: Record<string, number>;
  source: string;
  level: 'A' | 'B' | 'C' | 'D';
};

const file = new URL('./check-values.json', import.meta.url);
const entries = JSON.parse(readFileSync(file, 'utf8')) as CheckValue<unknown, unknown, unknown>[];

export const checkValueIds: readonly string[] = entries.map(({ id }) => id);

/** Those whose printed value was never seen, level C. */
export const fromMemory: readonly string[] = entries.filter(({ level }) => level === 'C').map(({ id }) => id);

/** The entry, typed by the test that reads it. A name that is not there stops the test. */
export function checkValue<Input, Expected, Published = Record<string, never>>(
  id: string,
): CheckValue<Input, Expected, Published> {
  const entry = entries.find((one) => one.id === id);
  if (!entry) throw new Error(`No check value ${id}`);
  return entry as CheckValue<Input, Expected, Published>;
}
