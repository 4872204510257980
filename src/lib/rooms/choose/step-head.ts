import type { Pattern } from '../../audit';
import { inSentence } from '../../format';

/** Facts of the eye first: they are what a surgeon can see before the case; then by size. */
const RANK: Readonly<Record<Pattern['kind'], number>> = {
  fact: 1,
  place: 1,
  'waiting-before': 1,
  'returned-to': 1,
  'earlier-step': 1,
  'over-time': 2,
  bimodality: 3,
};

/** The one of the shown patterns of a step that its page is headed by. */
export function chiefPattern(shown: readonly Pattern[]): Pattern | null {
  const rank = (pattern: Pattern) => (pattern.factId === null ? RANK[pattern.kind] : 0);
  const size = ({ ratio }: Pattern) => Math.abs(Math.log(ratio));
  return [...shown].sort((a, b) => rank(a) - rank(b) || size(b) - size(a))[0] ?? null;
}

/** When a step takes longer, in one line. */
export function stepHead(step: { label: string; retired: boolean }, chief: Pattern | null, looked: boolean): string {
  const { label } = step;
  if (step.retired) return `${label} is a retired step.`;
  if (!chief)
    return looked
      ? `${label}: nothing goes clearly with a longer time.`
      : `${label}: too few cases to say when it takes longer.`;
  const long = chief.ratio > 1;
  if (chief.kind === 'bimodality') return `${label} falls into two groups of times.`;
  if (chief.kind === 'over-time')
    return `${label} became ${long ? 'longer' : 'shorter'} ${chief.label.replace('from the first to the latest of', 'over')}.`;
  const takes = `${label} takes ${long ? 'longer' : 'less time'}`;
  return chief.factId === null ? `${takes} ${when(chief)}.` : `${takes} in certain eyes (${chief.label}).`;
}

function when({ kind, factor, label }: Pattern): string {
  switch (kind) {
    case 'fact':
      return `on certain lists (${label})`;
    case 'place':
      return factor === 'place-first' ? 'in the first case of a list' : 'in the last third of a list';
    case 'waiting-before':
      return 'after waiting just before it';
    case 'returned-to':
      return 'where it is returned to';
    default:
      return inSentence(label);
  }
}
