import { median, quantile } from '../statistics';
import type { PatternTest } from './pattern-test';
import { auditThresholds } from './thresholds';
import type { EyeGroup, EyeGroups, StepTable } from './types';

/**
 * The eyes with and without a fact at one step, in times as recorded, and what the same fact does at the other steps: a
 * fact that makes all steps longer says nothing about this one.
 *
 * @returns `null` for a pattern that is not of a yes/no fact or a level of the eye.
 */
export function eyeGroups(test: PatternTest, tests: readonly PatternTest[], table: StepTable): EyeGroups | null {
  const { eyes, stepId, factor } = test;
  const seconds = table.seconds[table.stepIds.indexOf(stepId)];
  if (!eyes || !seconds) return null;
  const group = (places: readonly number[]): EyeGroup => {
    const times = places.map((place) => seconds[place]!);
    return {
      n: times.length,
      lists: new Set(places.map((place) => table.list[place])).size,
      median: median(times),
      p20: times.length < auditThresholds.intervalFrom ? null : quantile(times, 0.2),
    };
  };
  const others = tests.filter((each) => each.factor === factor && each.stepId !== stepId);
  return {
    levels: eyes.levels,
    with: group(eyes.withIt),
    without: group(eyes.without),
    elsewhere: others.length === 0 ? null : median(others.map(({ effect }) => effect().raw)),
  };
}
