import type { MarkProblem } from '../recording';

/** What the page says where a recording does not show, and what to do. The marks are kept in every one of them. */
export const recordingTroubles = {
  empty: 'This file is empty (0 bytes). Copy it again from where the recording is kept; your marks are kept.',
  'cannot-play':
    'This browser does not play this recording: its format is another one, its index is damaged, or it is no recording. Save it as MP4 with H.264 with your recorder’s software and open that; your marks are kept.',
  'no-picture': 'There is no picture in this file, only sound. Open the recording itself; your marks are kept.',
  gone: 'The recording can no longer be read. Put the stick back and open it again; your marks are kept.',
  damaged: 'This place of the recording cannot be read. Go on after it; your marks are kept.',
} as const;

/** Said of a file that is another one than the marks were made on. */
export const recordingSays = {
  other:
    'This is not the recording these marks were made on: another one, or the same one changed since. Times of one do not hold in the other. Open the right one, or go on with this one and check every mark.',
  noLength: 'This file does not say how long it is. It can be timed; the contact sheet and the changes need a length.',
  tooLongForChanges: 'Longer than an hour: changes of the picture are not looked for.',
  twoTabs:
    'This case is being timed in another tab or on another device, and marks were kept there after yours. Nothing of either is lost yet: choose whose marks to go on with.',
  notKept: 'Not kept on disk yet: no answer came. Your marks are in this tab, and it tries again.',
} as const;

const PROBLEMS: Record<MarkProblem['why'], (step: string) => string> = {
  runs: (step) => `${step}: it has a start and no end yet. Mark its end, or remove it.`,
  'too-long': (step) => `${step}: it is longer than two hours. Check its start and end.`,
  none: () => 'No step has a start and an end yet. One step is enough.',
  twice: (step) =>
    `${step} is the whole of steps that are timed by themselves as well, so the time would count twice. Remove one or the other.`,
};

/** @param step its name, or what waits between steps */
export const markProblemWords = ({ why }: Pick<MarkProblem, 'why'>, step: string): string => PROBLEMS[why](step);
