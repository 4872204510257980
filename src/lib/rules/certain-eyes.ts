import type { Audit, EyeGroup } from '../audit/types';
import { rulesThresholds } from './thresholds';

/** A kind of eye in which one step is lengthened more than the other steps are. Never a fault. */
export type CertainEyes = {
  stepId: string;
  factId: string;
  levels: readonly string[];
  /** As it stands in a sentence: "small pupil". */
  label: string;
  /** How many times as long, shrunk, with its interval. */
  ratio: number;
  low: number;
  high: number;
  /** The ratio over what the same eyes do at the other steps. */
  beyond: number;
  /** Cases with the step; how many of them are such eyes; and those they are compared with; as recorded. */
  n: number;
  withIt: EyeGroup;
  without: EyeGroup;
  /** Seconds a case that go with these eyes beyond what they do elsewhere. */
  seconds: number;
};

/** Reason as data; words/ says it. */
export type CertainEyesReason = {
  code: 'certain-eyes';
  numbers: { ratio: number; low: number; high: number; n_with: number; n: number; beyond: number; seconds: number };
};

/**
 * The kind of eye most worth a look: of the patterns shown for a yes/no fact or a level of the eye, those that go with
 * a time longer by 1.3 or more beyond what the same fact does at the other steps; of these the highest sum of
 * share of cases × recorded median without it × (beyond − 1). `null` where there is none. A step not to be shortened, a
 * retired one and one of `quiet` are left alone.
 */
export function certainEyesOf(
  { patterns, steps }: Pick<Audit, 'patterns' | 'steps'>,
  quiet: ReadonlySet<string> = new Set(),
): CertainEyes | null {
  const { eyesCases, eyesLists, eyesBeyond } = rulesThresholds;
  const found = patterns.flatMap((pattern): CertainEyes[] => {
    const { stepId, factId, label, ratio, low, high, eye, shown } = pattern;
    const step = steps.find((each) => each.stepId === stepId);
    if (!shown || factId === null || !eye || eye.elsewhere === null || !step) return [];
    if (step.notToShorten || step.retired || quiet.has(stepId)) return [];
    const beyond = ratio / eye.elsewhere;
    if (eye.with.n < eyesCases || eye.with.lists < eyesLists || beyond < eyesBeyond) return [];
    const seconds = (eye.with.n / step.n) * eye.without.median * (beyond - 1);
    const groups = { n: step.n, withIt: eye.with, without: eye.without };
    return [{ stepId, factId, levels: eye.levels, label, ratio, low, high, beyond, ...groups, seconds }];
  });
  return found.reduce<CertainEyes | null>((best, each) => (best && best.seconds >= each.seconds ? best : each), null);
}

export const certainEyesReason = ({
  ratio,
  low,
  high,
  withIt,
  n,
  beyond,
  seconds,
}: CertainEyes): CertainEyesReason => ({
  code: 'certain-eyes',
  numbers: { ratio, low, high, n_with: withIt.n, n, beyond, seconds },
});
