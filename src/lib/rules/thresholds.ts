/**
 * Every threshold of the rules in one place, each with its reason and what was rejected.
 * Shares are of resamples of lists in which a step came first on a view.
 */
export const rulesThresholds = {
  /**
   * A step stands out on a view when it came first in at least this share of resamples. Set by simulation (`npm run bench
   * -- nothing-stands-out`): in 400 records of nine equal steps the answer is then "nothing stands out" in 99, 92, 88 and
   * 87 of 100 at 20, 40, 80 and 100 cases, and in 98, 91, 86 and 85 with a reference set of 24 cases; the bar is 80.
   * Tried: 0.55 (71 to 76 of 100, too few), 0.60 (80 to 81, on the bar), 0.70 (87 to 91, and true differences missed more often).
   */
  standsOut: 0.65,
  /** With fewer cases or lists the resamples resemble each other too much to be believed at the same share. */
  standsOutSmall: 0.75,
  smallCases: 40,
  smallLists: 8,
  /**
   * Two or three steps cannot be told apart when each came first in at least this share, and all of them together in
   * `levelTwo` or `levelThree`: together they stand out from all others. Tried together with 0.65 above: 0.75 and 0.85
   * (66 to 71 of 100 records of nine equal steps answered with "nothing"), 0.80 and 0.90 (78 to 81).
   */
  level: 0.2,
  levelTwo: 0.85,
  levelThree: 0.95,
  levelMost: 3,
  /** Events are looked for in this many of the latest answered cases: older ones say little about today's practice. */
  lastAnswered: 100,
  /** Serious events tied to a step in these cases that make it a matter of safety, reviewed or not. */
  seriousTied: 2,
  /** After an event or near miss a step is not suggested for time for this many cases; the surgeon may still choose another. */
  quietAfterEvent: 40,
  /**
   * Certain eyes: enough of them to be worth a month of their own, and so much longer than the same fact makes the other
   * steps. Without that, a fact that makes every step 16 % longer named a step in 47 of 100 simulated records; with it, 8.
   */
  eyesCases: 8,
  eyesLists: 4,
  eyesBeyond: 1.3,
  /** Waiting noted in fewer cases is an odd day, and so few could point to a person or a shift. */
  waitingCases: 10,
  /** Few enough to keep in mind while operating, without looking anything up. */
  checkpoints: 3,
  /**
   * Returned to once in five cases or more: the end point is often not reached the first time. Less than that happens
   * to everyone.
   */
  returnsOften: 0.2,
  /**
   * Times mostly within a quarter of the median are steady; from here on two thirds of cases spread over 1.35 times
   * either way.
   */
  variesMuch: 1.35,
  /** Weeks without a list after which the first one back is prepared for. Common practice, no source. */
  breakWeeks: 8,
  /** Taken over once is a bad day; twice in the cases shown is worth agreeing on beforehand. */
  takenOver: 2,
  /** A step is mostly waiting when its waiting is at least this share of its own median time. */
  waitingShare: 0.25,
  /** A protected part seen in fewer than this share of the cases looked at comes first; looked at in at least so many. */
  protectedPartShare: 0.9,
  protectedPartLooked: 10,
  /** "The shorter fifth left nothing out" needs an answer for at least this many of its cases. */
  shorterFifthKnown: 4,
} as const;
