/**
 * Every number the safety rules turn on, with its reason.
 * Published rates: see `seriousRatePublished.source`.
 */
export const safetyThresholds = {
  /** Level of every bound. Zero events use a one-sided bound: there is no lower side to share the error with. */
  level: 0.95,

  /** Two serious events tied to the practised step or one after it: past that, a review cannot reopen this result. One can be chance. */
  seriousTiedClose: 2,

  /**
   * A protected part missing in two more of twenty cases than in the baseline cases closes the gate: one missing case
   * is often a recording that did not show it. As a share and as a count, so that three cases looked at cannot do it
   * alone.
   */
  protectedPartMissingShare: 2 / 20,
  protectedPartMissingCases: 2,

  /** The monitor looks for a doubling of the odds: smaller rises need thousands of operations to be seen. */
  monitorOddsRatio: 2,
  /** A false signal within this many operations … */
  monitorHorizon: 200,
  /** … has this probability. Lower would notice a doubling less than one time in four. */
  monitorFalseSignal: 0.05,
  /**
   * The surgeon's own record is blended into the rate as if the entered rate stood for this many operations; not used
   * before that many have been answered, and then again at twice, four times … that many. Rejected: blending every 200,
   * which lets a slow rise carry its own line up with it.
   */
  monitorPriorWeight: 200,
} as const;

/**
 * Rate of posterior capsule rupture or vitreous loss, the serious event with the best-known rate: 1.01 % of
 * 961,208 operations. Not a norm: the surgeon may enter another rate with its source.
 */
export const seriousRatePublished = {
  rate: 0.0101,
  source:
    'Posterior capsule rupture, 961,208 operations in the United Kingdom 2016 to 2022 (Eye 2024, doi 10.1038/s41433-024-03344-2)',
} as const;
