import { factPhrase } from '../format';
import type { Case, Procedure, Step } from '../model';
import { factOf } from './eye-coding';

/** A case that may be one of the two, with its time as recorded and adjusted for the eye, seconds. */
export type Candidate = { case_: Case; seconds: number; adjusted: number };

export type RankedPair = { shorter: Candidate; longer: Candidate; eyes: Eyes };
export type Eyes = { same: string[]; different: string[]; compared: number };

/** Every pair, the best first. */
export function rankedPairs(
  shorters: readonly Candidate[],
  longers: readonly Candidate[],
  step: Step,
  procedure: Procedure,
): RankedPair[] {
  const ranked: (RankedPair & { score: readonly number[] })[] = [];
  for (const shorter of shorters)
    for (const longer of longers) {
      if (longer.seconds <= shorter.seconds) continue;
      const eyes = compared(shorter.case_, longer.case_, procedure);
      const score = [
        -eyes.different.length,
        recordings(shorter, longer),
        eyes.same.length,
        answered(shorter.case_, step),
        Math.min(shorter.case_.sequence, longer.case_.sequence),
        Math.max(shorter.case_.sequence, longer.case_.sequence),
      ];
      ranked.push({ shorter, longer, eyes, score });
    }
  // A stable sort: of pairs that are alike in all of it the one met first stays first.
  return ranked.sort((a, b) => (higher(a.score, b.score) ? -1 : higher(b.score, a.score) ? 1 : 0));
}

const recordings = (...both: readonly Candidate[]) => both.filter(({ case_ }) => case_.recording !== null).length;

/** A shorter case known to have left nothing out is worth more than one never asked about. */
const answered = (case_: Case, { protectedParts }: Step) =>
  (case_.events === null ? 0 : 1) +
  (protectedParts.length > 0 && protectedParts.every(({ id }) => case_.protectedSeen[id]) ? 1 : 0);

/** Same length, compared place by place. */
function higher(a: readonly number[], b: readonly number[]): boolean {
  const place = a.findIndex((value, index) => value !== b[index]);
  return place !== -1 && a[place]! > b[place]!;
}

/** Facts entered in both. Numbers are the same kind of eye within a twentieth. */
export function compared(a: Case, b: Case, { facts }: Procedure): Eyes {
  const eyes: Eyes = { same: [], different: [], compared: 0 };
  for (const fact of facts) {
    const [x, y] = [factOf(a, fact), factOf(b, fact)];
    if (x === null || y === null) continue;
    eyes.compared += 1;
    const alike = typeof x === 'number' && typeof y === 'number' ? Math.abs(x - y) <= 0.05 * Math.abs(x) : x === y;
    if (alike) eyes.same.push(factPhrase(fact, x));
    else eyes.different.push(`${factPhrase(fact, x)} against ${factPhrase(fact, y)}`);
  }
  return eyes;
}
