/** What one operation adds to the sum: log-likelihood units. */
export type EventWeights = { event: number; none: number };

/**
 * Weights of the risk-adjusted CUSUM: evidence of one operation for odds of the event `odds` times the expected
 * against `oddsBefore` times (Steiner, Cook, Farewell and Treasure, Biostatistics 2000;1:441).
 * @param risk expected probability of the event in this operation, above 0 and below 1
 * @throws on a risk or odds outside that: a risk of 0 would make one event infinite evidence
 */
export function riskAdjustedWeights(risk: number, odds: number, oddsBefore = 1): EventWeights {
  if (!(risk > 0 && risk < 1)) throw new RangeError(`event weights require a risk above 0 and below 1, not ${risk}`);
  if (!(odds > 0 && oddsBefore > 0)) throw new RangeError('event weights require odds ratios above 0');
  const before = 1 - risk + oddsBefore * risk;
  const after = 1 - risk + odds * risk;
  return { event: Math.log((before * odds) / (after * oddsBefore)), none: Math.log(before / after) };
}

/**
 * The same where every operation has one expected rate: ln(p1/p0) for an event, ln((1 − p1)/(1 − p0)) for none, p1 the
 * rate at `oddsRatio` times the odds (Reynolds and Stoumbos, J. Qual. Technol. 1999;31:87).
 */
export function bernoulliCusumWeights(p0: number, oddsRatio: number): EventWeights {
  return riskAdjustedWeights(p0, oddsRatio);
}
