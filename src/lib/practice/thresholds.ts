/**
 * Every number the baseline cases, the result and lasting turn on, with its reason and what was rejected.
 * Rates in the reasons come from `npm run bench -- characteristics`. Effects are on the log scale of seconds.
 */
export const practiceThresholds = {
  // Baseline cases
  /** Fewer give an interval too wide to tell a fifth from nothing. */
  startAtLeast: 20,
  /** More would reach back into an earlier way of operating. */
  startAtMost: 80,
  /** Where the step was already getting shorter: older cases would make the start look longer than it is. */
  startWhenFalling: 40,
  /** One-sided confidence that the step was falling. 95 % would miss most real learning in 80 cases. */
  fallingConfidence: 0.9,

  // Counting a case
  /** Other steps by the surgeon that a case needs: with fewer, "the rest of the operation" is one step's noise. */
  otherSteps: 3,
  /** Which steps are timed is read from the latest so many cases: reading all of 20,000 would take most of a second. */
  countingSample: 200,
  /** A step stands for the rest only if done in this many cases of each period: its own level there must be known. */
  restCasesEachPeriod: 5,
  /** Cases with a rest, in each period, below which nothing is claimed against the rest. */
  restCases: 12,
  /** Lists in each period below which a list effect could be the whole change. */
  listsEachPeriod: 3,

  // The effect
  /** Residuals of other steps are clipped here, round each window's own level: round a common level a drift of the whole operation would be cut off (13 to 43 % wrong). */
  clipScales: 2,
  /**
   * With so many lists, of on average so few cases, degrees of freedom come from both parts of the variance
   * (Satterthwaite, Biometrics Bulletin 1946;2:110). With fewer or longer lists the number of lists alone must carry it.
   */
  satterthwaite: { lists: 8, casesAList: 6 },
  /** Two-sided 95 %. */
  levelFirst: 0.95,
  /** Second look, after the first came at twenty: without it 3.8 to 5.0 % wrong. */
  zSecond: 2.24,
  /**
   * For *shorter*, the step's own change must be at least this part of its change against the rest: else the rest
   * moved, not the step. A third lets a rest that takes 15 % longer be called a shorter step in twice as many months.
   */
  ownPart: 1 / 2,
  /** The same for *longer*, where a false claim sends the surgeon to look at two recordings and does no harm. */
  ownPartLonger: 1 / 3,
  /** One-sided confidence that the rest took longer, and that the step itself took less time, which is then asked too: beside a slower operation a step that stayed looks shorter. */
  restLongerConfidence: 0.95,
  ownShorterConfidence: 0.95,
  /** One-sided confidence that the rest is shorter; from then on shared case difficulty is allowed to weigh more on this step. */
  restShorterConfidence: 0.95,
  /**
   * How much more than the others a step may feel a shared case difficulty, taken so many of its standard errors
   * higher. Without the errors and held at 2.5, a step that feels it twice or three times is wrongly *shorter* in 9
   * and 21 of 100 easier months instead of 4; below 1.25 every such rate rises; at 3.5 a real fifth is still found.
   */
  sharedCaseDifficulty: { least: 1.25, most: 3.5, errors: 0.75 },
  /** Covariances below this (a case factor of 4 to 5 %) are noise; dividing by them would give any ratio. */
  sharedCaseDifficultyFloor: 0.002,

  // Allowance for having picked the step
  selectionAllowanceResamples: 1000,
  /**
   * The resampled gain understates the real one: choosing again among values that were chosen from once. 1.25 would
   * find two to three more of a hundred real changes, and be wrong in over 4 of 100 where steps have list effects of
   * their own (3.2 to 3.8 with 1.5).
   */
  selectionAllowanceFactor: 1.5,

  /** As the suggestion asks of a kind of eye before it names one: cases with it, over so many lists. */
  pairCases: 8,
  pairLists: 4,

  // Aimed at certain eyes
  /** One-sided confidence that such eyes are more frequent in the window: a fact called more freely brings easier eyes. */
  moreSuchEyesConfidence: 0.95,
  /** A window foretold to take longer than this is warned of: half a year. */
  longWindowDays: 183,
  /** A window that has run so long without filling is said to have. */
  windowYearDays: 365,

  // Steadier
  permutations: 1999,
  steadierOneSided: 0.025,
  /** Absolute deviations are cut here (pooled robust SDs): one outlier must not decide about steadiness. */
  steadierCut: 2.5,
  /** A shorter window shows a halved spread about half the time only. */
  steadierWindow: 40,

  // Can twenty cases show it
  /** With fewer baseline cases the spread is known too roughly for "6 times in 10". */
  powerInTenthsFrom: 40,
  /** Huber's spread is a little less certain than an SD of as many normal values. */
  spreadError: 1.1,

  // Window
  windowLists: 4,
  /** With lists longer than `longList` four lists would mean more than eighty cases. */
  windowListsLong: 3,
  longList: 20,
  followingLength: 20,
  /** Further than 120 cases from the start, whatever is found has more reasons than one goal. */
  followingAtMost: 6,

  // Lasting
  lastingConfidence: 0.95,
  /** A small first effect is hard to tell from none. */
  fadedConfidenceSmall: 0.9,
  smallFirstEffect: Math.log(1 / 0.85),
  lastingHalf: 0.5,

  // Very short times
  /** Under the surgeon's own 10th percentile in the baseline cases … */
  shortTimesBelow: 0.1,
  /** … in more than twice the share expected there: was anything left out? */
  shortTimesTimes: 2,

  // Notes
  /** "Some of this may come with experience": published learning curves of phacoemulsification flatten around here. */
  experienceCases: 300,

  // Chart
  /** Fewer useful cases and runs rules signal too rarely to say anything. */
  chartSignalsFrom: 24,
  /** "Look at this recording". */
  chartDotSigmas: 3,

  // Other charts
  /**
   * Weight of the newest case and slack in SDs: common practice for a small lasting shift of about one SD. Limits are
   * crossed by chance in 5 of 100 windows of the longest length; so many simulated charts give their first decimal.
   */
  otherCharts: { weight: 0.2, slack: 0.5, horizon: 40, falseSignal: 0.05, runs: 1000 },

  // Looking back
  /**
   * Cases and lists of each stretch, and cases of each with a step: fewer and the interval spans half to double. Where
   * lists are not known a bad day cannot be told from a change, so more cases are asked.
   */
  lookBack: { cases: 20, lists: 4, casesWithoutLists: 30, stepCases: 20 },
  /**
   * Chance that anything is named when nothing has changed. Of thirteen dates tried on one record the best one names
   * a step in 20 of 100 at 0.05, in 3 to 4 at 0.005: who chooses a date has usually tried some.
   */
  lookBackFixed: 0.05,
  lookBackFree: 0.005,

  // A checkpoint done or not
  /** Fewer cases than this on either side, and one odd case would be half the difference. */
  doneBesideEachSide: 8,
} as const;
