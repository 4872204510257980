/** A word or phrase that may not stand in the library, and why. */
export type Forbidden = { pattern: RegExp; why: string };

/** Words that turn a fact into a verdict, or belong to ranking, selling and scoring. */
export const FORBIDDEN: readonly Forbidden[] = [
  {
    pattern: /\b(returns?|gaps?|best|worst|targets?|credits?|dashboards?|insights?|analytics?|benchmarks?)\b/i,
    why: 'a word with another meaning here, or none',
  },
  {
    pattern:
      /\b(improv\w*|scor(?:e|es|ed|ing)|coach\w*|novices?|proficien\w*|levels?|streaks?|badges?|experts?|mastery|masters?)\b/i,
    why: 'judges the surgeon',
  },
  {
    pattern: /\b(lost|wasted?|saved?|saves|saving) (?:\w+ )?(time|seconds|minutes)\b/i,
    why: 'time is not lost or saved here',
  },
  {
    pattern:
      /\b(fast|faster|fastest|quick\w*|slower|slowest|speed\w*|swift\w*|rapid\w*|brisk\w*|efficien\w*|slick\w*|productiv\w*)\b/i,
    why: 'praises or blames speed',
  },
  {
    pattern:
      /\b(gels?|red glow|glow|lid holders?|clear sheet|inner (?:lining|layer|membrane)|nought|kept parts?|re-?draws?|went back|go(?:es)? back to)\b/i,
    why: 'has a standard term in the trade',
  },
  { pattern: /[®™©]|\b[A-Z][a-z]+[A-Z]\w*|\b[A-Z]{2,}\d+\b/, why: 'looks like a brand' },
  { pattern: /\b(?:dr|mr|mrs|prof(?:essor)?)\.? [A-Z]/, why: 'looks like a person' },
];

/** A duration, a count of seconds or a clock reading, in figures or in words. */
export const DURATION =
  // "A second instrument" and "the second half" are no durations, so the bare singular counts after a figure only.
  /\b\d+(?:[.,]\d+)?\s*-?\s*(?:s|secs?|seconds?|min|mins|minutes?|h|hours?)\b|\b\d{1,2}:\d{2}\b|\b(?:seconds|minutes?|hours?|stopwatch|countdown|clock)\b/i;

/** "Practise" belongs to drills off the patient only. */
export const PRACTISE = /\bpracti[sc](?:e|es|ed|ing)\b/i;
