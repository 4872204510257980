/**
 * The worlds in which the rules are tried: what happens in truth, written down. Steps are log-normal with a factor
 * shared by all steps of a case and one shared by all cases of a list, facts of the eye that are recorded, and outliers.
 */
export type World = {
  name: string;
  /** What a reader of the table sees. */
  says: string;
  start: number;
  window: number;
  /** Windows after the first, each as long as the first. */
  following: number;
  /** The twenty is looked at, and extended to forty (the next window) where it was not shorter. */
  secondLook: boolean;
  listSize: number;
  steps: number;
  /** The practised step; with `picked` any step may become it. */
  practised: number;
  /** SDs on the log scale. */
  sd: number;
  /** Of the practised step's own noise, at the start and in the windows (default `sd`). */
  ownSd?: { start: number; window: number };
  caseSd: number;
  listSd: number;
  /** A list effect of each step for itself. */
  stepListSd: number;
  outliers: number;
  /** How much of the shared factors the practised step feels. */
  loading: number;
  /** Level of the practised step beside the others at the start. */
  level: number;
  /** Change of the practised step in each window, log scale, from the first on. */
  change: readonly number[];
  /** Change of all other steps in the windows. */
  restChange: number;
  /** Change in the windows of one more step, the first of the operation, which stays in the rest. */
  otherChange: number;
  /** Change in the windows of the step after the practised one. */
  nextChange: number;
  /** Change of all steps over the whole record, log scale; with `wave` up and down twice instead. */
  drift: number;
  wave: boolean;
  /** Chance of a dense nucleus and of a small pupil: start, windows. */
  dense: readonly [number, number];
  pupil: readonly [number, number];
  /** Recorded facts beside nucleus and pupil, each in three of ten cases and a fifth longer in every step. */
  moreFacts: number;
  /** Skewed noise: exponential instead of normal. */
  skewed: boolean;
  /** ln seconds of the steps: all alike, or from 10 s to 5 min. */
  lengths: 'equal' | 'spread';
  /** Share of step times missing, by chance. */
  missing: number;
  /** First case of a list longer by this, last third by half of it. */
  position: number;
  /** How the step was picked from the start. */
  picked: 'not' | 'reference' | 'seconds' | 'spread';
  /** Count only runs in which the practised step was the one picked. */
  onlyIfPicked: boolean;
  measure: 'time' | 'steadiness';
  /** The goal is aimed at small pupils, or at the kind of eye that was picked with its step. */
  aimed?: {
    /** Baseline cases with such eyes. */
    cases: number;
    /** How much longer the practised step takes in small pupils than the other steps do, log scale: start, window. */
    beyond: number;
    beyondLater: number;
    /** Step and fact are the pair with the highest sum in the start. */
    picked: boolean;
    /** With the allowance for that. */
    allowed: boolean;
    /** Share of the cases called small pupils in the window that have none. */
    calledFreely: number;
    /** With the bound where such eyes are more frequent in the window. */
    bounded: boolean;
  };
};

const plainMonth: World = {
  name: 'nothing',
  says: 'nothing changed',
  start: 40,
  window: 20,
  following: 0,
  secondLook: false,
  listSize: 5,
  steps: 9,
  practised: 4,
  sd: 0.22,
  caseSd: 0.1,
  listSd: 0.06,
  stepListSd: 0,
  outliers: 0.05,
  loading: 1,
  level: 0,
  change: [0],
  restChange: 0,
  otherChange: 0,
  nextChange: 0,
  drift: 0,
  wave: false,
  dense: [0.3, 0.3],
  pupil: [0.2, 0.2],
  moreFacts: 0,
  skewed: false,
  lengths: 'equal',
  missing: 0,
  position: 0,
  picked: 'not',
  onlyIfPicked: false,
  measure: 'time',
};

/** Cases of each window: as many as asked, and on until they come from four lists (three where lists exceed twenty). */
export function windowCases({ window, listSize }: World): number {
  return Math.max(window, (listSize > 20 ? 2 : 3) * listSize + 1);
}

const SHARE = 0.3;

/** A month of a goal aimed at eyes that are three in ten; 20 of them fill its window. */
export const aimedWorld = (
  parts: Partial<World> & Pick<World, 'name' | 'says'>,
  aimed: Partial<NonNullable<World['aimed']>> & { cases: number },
): World => ({
  ...plainMonth,
  pupil: [SHARE, SHARE],
  moreFacts: 3,
  start: 5 * Math.ceil(((aimed.picked ? 1 : 1.3) * aimed.cases) / SHARE / 5),
  window: 150,
  ...parts,
  aimed: {
    beyond: Math.log(2),
    beyondLater: Math.log(2),
    picked: false,
    allowed: true,
    calledFreely: 0,
    bounded: true,
    ...aimed,
  },
});

export const world = (parts: Partial<World> & Pick<World, 'name' | 'says'>): World => ({ ...plainMonth, ...parts });
