/**
 * Where a page of guidance is still empty (a step the surgeon added), a plan must not be without these.
 * Common practice, no source: they hold for every step of an operation on the eye.
 */
export const defaultStop =
  'The view is lost, the patient moves or is in pain, or the chamber is unstable: stop, and find the cause before going on.';

export const defaultDrill = {
  id: 'watch-two',
  where: 'video',
  minutes: 15,
  do: 'Watch a shorter and a longer recording of this step, one after the other, and write down what was different just before they diverged.',
  passed: 'Three pairs in which you can point to the frame where the two diverge.',
  fits: [],
} as const;

/** In its place where no two cases can be watched. */
export const drillWithoutRecording = {
  id: 'recall-two',
  where: 'desk',
  minutes: 15,
  do: 'Take a shorter and a longer case of this step, as they were noted, and write down what you remember was different before it took longer.',
  passed: 'Three pairs of cases in which you can say what came before the difference.',
  fits: [],
} as const;
