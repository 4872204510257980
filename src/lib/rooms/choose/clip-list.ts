import type { Case, Procedure, Step } from '../../model';
import type { Clip } from '../../recording';

/** Cases offered for a list of clips: the latest ones whose place in the recording is known. */
const OFFERED = 20;

/** Cases in which it is known where the step stands in the recording, the latest first. */
export const casesWithPlaces = (cases: readonly Case[], stepId: string): Case[] =>
  cases
    .filter((one) => one.leftOut === null && placesOf(one, stepId).length > 0)
    .slice(-OFFERED)
    .reverse();

const placesOf = ({ stretches }: Case, stepId: string) =>
  stretches.flatMap(({ kind, stepId: of, start, end }) =>
    kind === 'step' && of === stepId && start !== null && end !== null ? [{ from: start, to: end }] : [],
  );

/** Every place of a step in these cases, under the surgeon's own codes and without a date. */
export const clipsOf = (cases: readonly Case[], step: Pick<Step, 'id' | 'label'>, checkpoint: string): Clip[] =>
  cases.flatMap((one) =>
    placesOf(one, step.id).map((place) => ({ code: one.code, step: step.label, ...place, checkpoint })),
  );

export type ClipList = {
  procedure: Procedure;
  step: Step;
  offered: readonly Case[];
  chosen: readonly Case[];
  checkpoint: string;
};
