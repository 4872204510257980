import type { Procedure } from '../../model';
import type { Steps } from '../../turns';
import { plainWords } from '../labels/plain-words';
import { weights } from '../weights';
import { headingMatcher, type HeadingMatch } from './headings';
import { targetOf, type Layout, type Target } from './targets';

/** A heading read for one procedure and layout. `key`: the form field that changes it; `match` is `null` where nothing is written. */
export type Heading = { text: string; key: string; chosen: Target | null; match: HeadingMatch | null };

/** Each heading of a row, once: what was chosen for it, and what it may mean. */
export function* readHeadings(
  cells: readonly string[],
  procedure: Procedure,
  layout: Layout,
  choices: Readonly<Record<string, string>>,
): Steps<Heading[]> {
  const match = headingMatcher(procedure, layout);
  const headings: Heading[] = [];
  const seen = new Map<string, number>();
  for (const [index, text] of cells.entries()) {
    yield weights.name;
    const key = keyOf(text, index, seen);
    headings.push({
      text,
      key,
      chosen: targetOf(choices[key] ?? '', procedure),
      match: text === '' ? null : match(text),
    });
  }
  return headings;
}

/** The heading in plain words, numbered where two are the same. */
function keyOf(heading: string, index: number, seen: Map<string, number>): string {
  const words = plainWords(heading) || `${index + 1}`;
  const times = (seen.get(words) ?? 0) + 1;
  seen.set(words, times);
  return times === 1 ? `column:${words}` : `column:${words}#${times}`;
}
