/**
 * Every threshold of the audit in one place, each with its reason and what was rejected.
 * Times are seconds; `log` means the scale of natural logarithms of seconds.
 */
export const auditThresholds = {
  /** Two stretches of one step closer than this are one: a mark cannot be set more exactly. */
  joinSeconds: 1,
  /** Cases without a list are taken eight neighbours at a time: about a half-day. Single cases would hide list effects. */
  blockSize: 8,
  /** A time this many robust SDs from the surgeon's own usual is asked about. Three would ask in most records. */
  queryScales: 6,
  /** From how many own times the robust SD is trusted for queries. Below, a few equal times would make it tiny. */
  queryFrom: 10,
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
  /** Cases needed for p columns: 15 + 3p. Fewer cases, fewer columns. */
  casesForColumns: (columns: number) => 15 + 3 * columns,
  /** Fewer lists than this: single cases are drawn. Four of five lists re-drawn would give a handful of different records. */
  listsToDraw: 6,
  /** Below this many times the adjustment is refitted inside each resample; above, its own uncertainty no longer shows. */
  refitBelow: 80,
  /** A reference set of fewer cases, or from fewer lists and readers, has no usual worth comparing with. */
  referenceCases: 10,
  referenceLists: 3,
  /** A step done in fewer cases is not ranked: its difference has a coefficient of variation of 40 % at twelve. */
  rankFrom: 12,
  /** Steps shorter than this share of the operation are not ranked by spread: seconds of reaction time look like spread there. */
  spreadShare: 0.05,
} as const;
