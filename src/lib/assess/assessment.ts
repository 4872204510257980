import type { Problem, ResultKind } from '../model';
import type { CompareJson } from './compare';

/** An effect as ratios of window to start. */
export type EffectJson = {
  ratio: number;
  low: number;
  high: number;
  n_start: number;
  n_window: number;
  method: string;
};

export type ResultJson = {
  step: string;
  /** The kind of eye it is aimed at; `null`: all eyes. `such` of `of` counted cases in which the fact was entered. */
  eyes: {
    fact: string;
    level: string;
    label: string;
    start: { such: number; of: number } | null;
    window: { such: number; of: number } | null;
    excess: number | null;
    without_excess: boolean | null;
    changed_late: number | null;
    other_eyes: EffectJson | null;
  } | null;
  kind: ResultKind;
  effect: EffectJson | null;
  plain: EffectJson | null;
  rest: EffectJson | null;
  spread: EffectJson | null;
  allowance: number;
  /** Lower end of the expected range, seconds: for the words, never a thing to reach for. */
  steer_s: number | null;
  notes: string[];
  paused: string[];
  cannot: string | null;
  lasting: { nth: number; kind: string; effect: EffectJson }[];
};

/** A kind of eye in which a step takes longer: the eyes with it and those compared, as recorded; why, in numbers. */
export type EyesJson = {
  step: string;
  label: string;
  with: { n: number; lists: number; median_s: number; p20_s: number | null };
  without: { n: number; lists: number; median_s: number; p20_s: number | null };
  because: { code: string; numbers: Record<string, number> }[];
};

/** One file's answer, `next-twenty/assessment/2`. Seconds; shares 0..1; what is unknown is `null`, never left out. */
export type Assessment = {
  format: 'next-twenty/assessment/2';
  procedure: string;
  cases: number;
  lists: number | null;
  seed: number;
  left_out: Pick<Problem, 'row' | 'column' | 'value' | 'why'>[];
  steps: {
    step: string;
    label: string;
    n: number;
    /** As recorded. */
    median_s: number | null;
    p20_s: number | null;
    /** Adjusted for the eye, on the scale on which the median is the recorded one; `null`: nothing was taken out. */
    adjusted: { median_s: number; p20_s: number } | null;
    /** Median less 20th percentile as recorded; told apart where a fact of the eye shows for the step. */
    difference_s: number | null;
    difference_same_eyes_s: number | null;
    difference_with_eye_s: number | null;
    /** Of the part by which steps are ranked: among the same kind of eye where told apart. */
    difference_interval_s: [number, number] | null;
    /** Why no difference is said; `null` where one is. */
    difference_cannot: { code: string; because: string } | null;
    spread: number | null;
    spread_interval: [number, number] | null;
    share: number | null;
    went_back_per_case: number | null;
    /** `null` where no waiting is noted in the whole record: it was not asked. */
    waiting_s: number | null;
    over_time: { ratio_per_20: number; low: number; high: number } | null;
    reference: { n: number; readers: number; ratio: number; low: number; high: number } | null;
    /** `may_belong`: further cases with an event tied to no step; `upper95` counts them. `null` where no case is answered with none. */
    events: { n: number | null; may_belong: number; answered: number; upper95: number | null };
    first: { seconds: number | null; spread: number | null; reference: number | null };
  }[];
  patterns: {
    step: string;
    label: string;
    n_with: number;
    n_without: number;
    ratio: number;
    low: number;
    high: number;
  }[];
  suggestion: { kind: string; steps: string[]; view: string | null; because: string[]; eyes: EyesJson | null };
  guidance: { checkpoints: string[]; reminders: string[]; stop: string[]; drills: string[] } | null;
  result?: ResultJson | null;
  compare?: CompareJson;
};
