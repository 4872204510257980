import type { CaseView } from './case-view';

/** The parts of a case that a form replaces with what was typed. */
export type Typed = 'facts' | 'hands' | 'times' | 'events' | 'place' | 'kept' | 'leave' | 'keep';

const SEEN = { '': 'not looked for', yes: 'seen', no: 'not seen' } as const;

/** What is stored of one part of a case, in words, to stand beside what was typed for it. */
export function storedNow(part: Typed, view: CaseView): string {
  switch (part) {
    case 'facts':
      return view.facts.map(({ label, value }) => `${label}: ${value}`).join('; ');
    case 'hands':
      return view.hands.words;
    case 'times':
      return timesWords(view);
    case 'events':
      return view.events?.map(({ words }) => words).join('; ') || (view.events ? 'no event' : 'not answered');
    case 'place': {
      const where = `${view.list?.title ?? 'list not known'}${view.position ? `, place ${view.position}` : ''}`;
      return `${where}${view.place.said ? `; ${view.place.said.replace(/\.$/, '')}` : ''}`;
    }
    case 'kept':
      return view.protectedParts.map(({ label, seen }) => `${label}: ${SEEN[seen]}`).join('; ');
    case 'leave':
      return view.leftOut ? `left out: ${view.leftOut.reason}` : 'it counts';
    case 'keep':
      return view.kept ? `kept as it is: ${view.kept.why}` : 'it can be changed';
  }
}

/** `hidden`: its times are not shown while they count. */
function timesWords({ hidden, stretches }: CaseView): string {
  if (hidden) return 'times that are not shown while they count';
  const rows = stretches.map(([step, kind, start, end, length]) => {
    const what = kind === 'step' ? step : `${step}, ${kind}`;
    return start ? `${what} ${start}–${end}` : `${what} ${length}`;
  });
  return rows.join('; ') || 'no times';
}
