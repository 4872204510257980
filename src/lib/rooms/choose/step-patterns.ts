import { auditThresholds, clearTrend, type Audit, type Pattern } from '../../audit';
import { clock, counted, listed, timesAsLong } from '../../format';
import type { EffectRow } from '../../words/reported-result';

export type StepPatterns = {
  lead: string;
  /** A fall or rise over time stands among the rows. */
  overTime: boolean;
  rows: readonly EffectRow[];
  /** What was looked at and not clear. */
  looked: string | null;
};

/** When a step takes longer: what stands, and what was looked at and not clear. */
export function stepPatterns(audit: Audit, stepId: string): StepPatterns {
  const shown = audit.patterns.filter((each) => each.stepId === stepId && each.shown);
  const looked = audit.lookedAt.find((each) => each.stepId === stepId)?.labels ?? [];
  const few =
    audit.caseIds.length < auditThresholds.patternsManyFrom
      ? ` With ${counted(audit.caseIds.length, 'case')} only very large differences would show.`
      : '';
  return {
    lead:
      (shown.length === 0
        ? looked.length === 0
          ? 'Too few cases to look at when this step takes longer.'
          : 'Nothing that was looked at goes clearly with a longer or shorter time.'
        : 'These go with a longer or shorter time. They need not be its cause.') + few,
    overTime: clearTrend(audit.patterns, stepId) !== null,
    rows: shown.map(patternRow),
    looked: looked.length > 0 ? `Looked at and not clear: ${listed(looked)}.` : null,
  };
}

/** The two groups of eyes as recorded. */
const sideBySide = ({ eye }: Pattern): string =>
  eye ? `: median ${clock(eye.with.median)} against ${clock(eye.without.median)}` : '';

function patternRow(pattern: Pattern): EffectRow {
  const { factor, kind, label, nWith, nWithout, ratio, low, high } = pattern;
  const times = timesAsLong(pattern);
  return {
    id: factor,
    label,
    under:
      kind === 'over-time'
        ? `a line through ${counted(nWith + nWithout, 'case')}`
        : `${counted(nWith, 'case')} with, ${nWithout} without`,
    ratio,
    low,
    high,
    words: `about ${times.ratio} times as long (${times.low} to ${times.high})${sideBySide(pattern)}`,
    bold: false,
  };
}
