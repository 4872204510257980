import { bernoulliCusumLimit, riskAdjustedWeights } from '../statistics';
import { limitFor, rateAtOdds, signalProbability, type RiskClass } from './monitor-chain';
import type { MonitoredOperation } from './monitor-operations';
import { safetyThresholds as set, seriousRatePublished } from './thresholds';

export type MonitorSignal = {
  at: number;
  caseId: string | null;
  events: number;
  operations: number;
  expected: number;
  reviewed: boolean;
};

export type Monitor =
  | { kind: 'never-asked' }
  | {
      kind: 'run';
      operations: number;
      events: number;
      /** Expected rate in use now, with where it comes from. */
      rate: number;
      source: string;
      /** The sum after each operation and the limit that held there: log-likelihood units. */
      path: readonly number[];
      limits: readonly number[];
      signals: readonly MonitorSignal[];
      /** A signal waits for its written review: the goal is paused. */
      signalled: boolean;
      /** Since the start or the last reviewed signal: "{events} in {operations}; about {expected} expected". */
      since: { events: number; operations: number; expected: number };
      /** Probability of a signal within 200 operations if the odds had doubled. */
      wouldNotice: number;
    };

/**
 * Bernoulli CUSUM on serious events for a doubling of the odds (Reynolds and Stoumbos, J Qual Technol 1999;31:87;
 * with a risk for each operation Steiner et al., Biostatistics 2000;1:441). The limit gives a false signal within 200
 * operations with probability 5 %. The rate is the entered one (else the published one); the surgeon's own record
 * is blended in only from 200 answered operations on, then holds for the next 200: a rate that followed every event
 * would hide the rise it should show. After a signal the sum starts again at 0 once every serious event of that
 * operation has its written review; until then it stays signalled and goes on from where it stands.
 * @param operations answered operations in order of time
 */
export function monitor(
  operations: readonly MonitoredOperation[],
  entered: { rate: number; source: string } | null = null,
): Monitor {
  if (operations.length === 0) return { kind: 'never-asked' };
  const basis = entered ?? seriousRatePublished;
  const path: number[] = [];
  const limits: number[] = [];
  const signals: MonitorSignal[] = [];
  let line = lineFor(basis.rate, operations);
  let sum = 0;
  let since = { events: 0, operations: 0, expected: 0 };
  let waiting = false;
  operations.forEach((one, index) => {
    if (index > 0 && index % set.monitorPriorWeight === 0) {
      const next = lineFor(blended(basis.rate, operations.slice(0, index)), operations);
      sum *= next.limit / line.limit; // as far from the new line as it was from the old
      line = next;
    }
    const risk = line.riskOf(one);
    const weights = riskAdjustedWeights(risk, set.monitorOddsRatio);
    sum = Math.max(0, sum + (one.serious ? weights.event : weights.none));
    since = {
      events: since.events + (one.serious ? 1 : 0),
      operations: since.operations + 1,
      expected: since.expected + risk,
    };
    path.push(sum);
    limits.push(line.limit);
    if (sum < line.limit || !one.serious) return;
    if (!waiting) signals.push({ at: index, caseId: one.caseId, ...since, reviewed: one.reviewed });
    if (one.reviewed && !waiting) {
      sum = 0;
      since = { events: 0, operations: 0, expected: 0 };
    } else waiting = true;
  });
  return {
    kind: 'run',
    operations: operations.length,
    events: operations.filter((one) => one.serious).length,
    rate: line.rate,
    source: line.rate === basis.rate ? basis.source : `${basis.source}; with your own ${operations.length} operations`,
    path,
    limits,
    signals,
    signalled: waiting,
    since,
    wouldNotice: signalProbability(line.doubled, set.monitorOddsRatio, line.limit, set.monitorHorizon),
  };
}

/** (events + 200 × rate) ÷ (n + 200): never 0, whatever the record. */
function blended(rate: number, before: readonly MonitoredOperation[]): number {
  const events = before.filter((one) => one.serious).length;
  return (events + set.monitorPriorWeight * rate) / (before.length + set.monitorPriorWeight);
}

const NO_RISK: MonitoredOperation = { serious: false, reviewed: true, caseId: null };

function lineFor(rate: number, operations: readonly MonitoredOperation[]) {
  const riskOf = (one: MonitoredOperation) => one.risk ?? rate;
  const counts = new Map<number, number>();
  for (const one of operations) counts.set(riskOf(one), (counts.get(riskOf(one)) ?? 0) + 1);
  const classes: RiskClass[] = [...counts].map(([expected, count]) => ({
    share: count / operations.length,
    expected,
    truth: expected,
  }));
  const limit =
    classes.length === 1
      ? bernoulliCusumLimit(
          riskOf(operations[0] ?? NO_RISK),
          set.monitorOddsRatio,
          set.monitorHorizon,
          set.monitorFalseSignal,
        )
      : limitFor(classes, set.monitorOddsRatio, set.monitorHorizon, set.monitorFalseSignal);
  const doubled = classes.map((one) => ({ ...one, truth: rateAtOdds(one.expected, set.monitorOddsRatio) }));
  return { rate, riskOf, limit, doubled };
}
