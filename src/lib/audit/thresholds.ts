/**
 * Every threshold of the audit in one place, each with its reason and what was rejected.
 * Times are seconds; `log` means the scale of natural logarithms of seconds.
 */
export const auditThresholds = {
  /** Two stretches of one step closer than this are one: marks cannot be set more precisely. */
  joinSeconds: 1,
  /** Where a merged step is timed in a smaller share of cases than this, its parts stand in the table: little is lost by leaving it. */
  fewMerged: 0.1,
  /** Cases without a list are taken eight neighbours at a time: about a half-day. Single cases would hide list effects. */
  blockSize: 8,
  /** A time this many robust SDs from the surgeon's own median is asked about. Three would ask in most records. */
  queryScales: 6,
  /** From how many own times the robust SD is trusted for queries. Below, a few equal times would make it tiny. */
  queryFrom: 10,
  /** A whole file whose median step time lies below this many seconds is asked about: in minutes 40 s is 0.67. */
  unitBelowSeconds: 3,
  /** Fewer times say nothing about the unit of a file. */
  unitFrom: 20,
  /** Whole seconds on a short step can make the scale tiny; a ten-per-cent floor keeps ordinary times from being asked about. */
  queryScaleFloor: 0.1,
  /** While the record is too short for a scale of its own: no published step mean comes near half an hour. */
  queryLongSeconds: 1800,
  /** A level of a fact with fewer cases is pooled: a coefficient from fewer than five is mostly noise. */
  levelCases: 5,
  /** A fact missing in more than this share is not used: filling in would invent most of it. */
  missingShare: 0.4,
  /** "Not entered" gets a column of its own from this many cases on. */
  notEnteredCases: 5,
  /** Fewer lists than this: single cases are drawn. Four of five lists resampled would give a handful of different records. */
  listsToDraw: 6,
  /** Below this many times the adjustment is refitted inside each resample; above, its own uncertainty no longer shows. */
  refitBelow: 80,
  /** A reference set of fewer cases, or from fewer lists and readers, has no median worth comparing with. */
  referenceCases: 10,
  referenceLists: 3,
  /** Resamples of fewer times only repeat them: no interval, no spread and no fifth of them is shown. */
  intervalFrom: 5,
  /** Times noted in whole seconds may each be off by half of one: a difference that is 1 s or less at most may be rounding alone. */
  coarseSeconds: 1.5,
  /** A step done in fewer cases is not ranked: its difference has a coefficient of variation of 40 % at twelve. */
  rankFrom: 12,
  /** Steps shorter than this share of the operation are not ranked by spread: seconds of reaction time look like spread there. */
  spreadShare: 0.05,
  /** Change over time is looked for in the latest cases only: an old habit long gone is not news, and all pairs grow with the square. */
  trendCases: 400,
  /** Fewer list means cannot give a slope with a closed 95 % interval (with four, none can be excluded). */
  trendLists: 6,
  /** A suggestion needs this much; below it, the order of steps in resamples is mostly noise. */
  enoughCases: 20,
  enoughLists: 4,
  /** Where lists are not known, neighbours stand in for them: more cases make up for the wrong cuts. */
  enoughUnlisted: 30,
  /** Patterns are looked for from this many cases on … */
  patternsFrom: 20,
  /** … and under so many the panel says that only very large differences would show. */
  patternsManyFrom: 40,
  /**
   * Cases and lists needed on either side of a comparison: fewer lists say more about the day than about the factor.
   */
  patternGroup: 5,
  patternLists: 3,
  /** Share of the shown patterns that may be false (Benjamini and Hochberg). One in ten: a pattern leads to watching recordings, not to a decision. */
  falseShare: 0.1,
  /** An effect under ten per cent is not worth a surgeon's attention, however sure. */
  patternRatio: 1.1,
  /** Waiting before a step counts from here on: less is an ordinary change of instruments. */
  waitedBeforeSeconds: 5,
  /** "After a long earlier step": below, a rank correlation is too loose to be compared with others. */
  carryOverFrom: 30,
  /** …and needs this many pairs of steps, to know how much the steps of a case go together anyway. */
  carryOverPairs: 4,
  /** Two groups cannot be told from a lumpy one with fewer times. */
  bimodalityFrom: 60,
  /** A pair of recordings: below, the 15th to 40th percentile may hold no case at all. */
  pairFrom: 12,
  /** Among certain eyes fewer will do: of eight, two lie between those percentiles. */
  pairWithinFrom: 8,
  /** The shorter case lies here: the very shortest cases may have left something out, so they are no example. */
  smoothFrom: 0.15,
  smoothTo: 0.4,
  /** The longer case lies here: in the very longest something rare happened, and they show that instead. */
  longerFrom: 0.75,
  longerTo: 0.95,
} as const;
