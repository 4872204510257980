import type { Goal, Reflection } from '../../model';
import { personIn } from '../../persons';

type Going<G> = { goal: G; reflections: Reflection[]; looksLike: string[] };

/**
 * What the surgeon wrote, as far as it may go out: reasons of the goal and the reflections ticked, each without the texts
 * that look like a person. The list says which bits kept a text back. It was asked when each was stored, but a report is
 * shown to others, and a record may have come in from a file.
 * @param nobody the surgeon says of this report that all of it points to nobody
 * @param none what was said to be none when it was stored
 */
export function withoutPersons<G extends Goal | null>(
  goal: G,
  reflections: readonly Reflection[],
  nobody: boolean,
  none: readonly string[] = [],
): Going<G> {
  const looksLike = new Set<string>();
  const passed = (text: string): string => {
    const found = nobody ? [] : personIn(text, 'note', none);
    for (const { bit, looksLike: kind } of found) looksLike.add(`"${bit}" looks like ${kind}`);
    return found.length > 0 ? '' : text;
  };
  return {
    goal: goal && {
      ...goal,
      reason: goal.reason === null ? null : passed(goal.reason),
      decisions: goal.decisions.map((each) => ({ ...each, reason: passed(each.reason) })),
    },
    reflections: reflections.map((each) => ({ ...each, saw: passed(each.saw), willTry: passed(each.willTry) })),
    looksLike: [...looksLike],
  };
}
