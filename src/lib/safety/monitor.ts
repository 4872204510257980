import { monitorLine, wouldNotice, type MonitorLine } from './monitor-line';
import type { MonitoredOperation } from './monitor-operations';
import { safetyThresholds as set, seriousRatePublished } from './thresholds';

export type SeriousRate = { rate: number; source: string };

/** Serious events, operations and events expected since the start or the last signal that was reviewed. */
export type MonitorCount = { events: number; operations: number; expected: number };
export type MonitorSignal = MonitorCount & { at: number; caseId: string | null; reviewed: boolean };

export type Monitor =
  | { kind: 'never-asked' }
  | {
      kind: 'run';
      operations: number;
      events: number;
      /** Expected rate in use now, with where it comes from. */
      rate: number;
      source: string;
      /** The sum after each operation, log-likelihood units, and the limits with the place from which each holds. */
      path: readonly number[];
      limits: readonly { from: number; limit: number }[];
      signals: readonly MonitorSignal[];
      /** A signal waits for its written review: the goal is paused. */
      signalled: boolean;
      /** "{events} in {operations}; about {expected} expected". */
      since: MonitorCount;
      /** Probability of a signal within 200 operations if the odds had doubled. */
      wouldNotice: number;
    };

/**
 * Bernoulli CUSUM on serious events for a doubling of the odds (Reynolds and Stoumbos, J Qual Technol 1999;31:87;
 * with a risk for each operation Steiner et al., Biostatistics 2000;1:441). The limit gives a false signal within 200
 * operations with probability 5 %. The rate is the entered one (else the published one); the surgeon's own record is
 * blended in only from 200 answered operations on, and again each time the record has doubled: a rate that followed
 * every event would hide the rise it should show. After a signal the sum starts again at 0 once every serious event
 * of that operation has its written review; until then it stays signalled and goes on from where it stands.
 * @param operations answered operations in order of time
 */
export function monitor(operations: readonly MonitoredOperation[], entered: SeriousRate | null = null): Monitor {
  if (operations.length === 0) return { kind: 'never-asked' };
  const basis = entered ?? seriousRatePublished;
  const { path, lines, signals, waiting, since } = follow(operations, basis.rate);
  const line = lines.at(-1) ?? monitorLine(0, basis.rate, operations);
  return {
    kind: 'run',
    operations: operations.length,
    events: operations.filter((one) => one.serious).length,
    rate: line.rate,
    source: line.from === 0 ? basis.source : `${basis.source}; with your own first ${line.from} operations`,
    path,
    limits: lines.map((each) => ({ from: each.from, limit: each.limit() })),
    signals,
    signalled: waiting,
    since,
    wouldNotice: wouldNotice(line, operations),
  };
}

/** Does a signal wait for its review? The same as `monitor`, without working out limits nothing came near. */
export function monitorSignalled(
  operations: readonly MonitoredOperation[],
  entered: SeriousRate | null = null,
): boolean {
  return follow(operations, (entered ?? seriousRatePublished).rate).waiting;
}

/** Sums that differ by rounding alone are one. */
const ROUNDING = 1e-9;

function follow(operations: readonly MonitoredOperation[], rate: number) {
  const path: number[] = [];
  const signals: MonitorSignal[] = [];
  let line = monitorLine(0, rate, operations);
  const lines: MonitorLine[] = [line];
  let sum = 0;
  let since: MonitorCount = { events: 0, operations: 0, expected: 0 };
  let waiting = false;
  operations.forEach((one, index) => {
    if (index === set.monitorPriorWeight * 2 ** (lines.length - 1)) {
      const next = monitorLine(index, blended(rate, operations.slice(0, index)), operations);
      if (sum > 0) sum *= next.limit() / line.limit(); // as far from the new line as it was from the old
      line = next;
      lines.push(line);
    }
    const weight = line.weightOf(one);
    sum = Math.max(0, sum + weight);
    since = {
      events: since.events + Number(one.serious),
      operations: since.operations + 1,
      expected: since.expected + line.riskOf(one),
    };
    path.push(sum);
    if (waiting || !one.serious || sum < line.limit() - ROUNDING) return;
    signals.push({ at: index, caseId: one.caseId, ...since, reviewed: one.reviewed });
    if (one.reviewed) {
      sum = 0;
      since = { events: 0, operations: 0, expected: 0 };
    } else waiting = true;
  });
  return { path, lines, signals, waiting, since };
}

/** (events + 200 × rate) ÷ (n + 200): never 0, whatever the record. */
function blended(rate: number, before: readonly MonitoredOperation[]): number {
  const events = before.filter((one) => one.serious).length;
  return (events + set.monitorPriorWeight * rate) / (before.length + set.monitorPriorWeight);
}
