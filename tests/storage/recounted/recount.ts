import { counts, type Counts } from './by-hand';
import type { Moment } from './record';
import type { Room } from './rooms';

/** A sentence, and its figures counted again: what its groups must hold, or whether they hold. */
export type Recount = readonly [
  pattern: RegExp,
  again: (groups: readonly string[], by: Counts) => readonly (string | number)[] | boolean,
];

/** A figure that this walk does not count again: why, and the test that checks it. */
export type LeftTo = { pattern: RegExp; why: string; test: string };

/**
 * What is wrong with the figures of a room at a moment: one that was counted otherwise, and one that nobody counts.
 * `met`: patterns that were met, so that none stands in a table for nothing.
 */
export function wrongIn(
  room: Room,
  moment: Moment,
  table: readonly Recount[],
  left: readonly LeftTo[],
  met: Set<string>,
): string[] {
  const by = counts(moment);
  const wrong: string[] = [];
  for (const text of new Set(room(moment))) {
    let rest = text;
    const take = (pattern: RegExp, check: (groups: string[]) => void) => {
      rest = rest.replace(new RegExp(pattern.source, `${pattern.flags.replace('g', '')}g`), (...match: unknown[]) => {
        met.add(pattern.source);
        check(
          match
            .slice(
              1,
              match.findIndex((each) => typeof each === 'number'),
            )
            .map((each) => String(each ?? '')),
        );
        return '§';
      });
    };
    for (const [pattern, again] of table) {
      if (!/\d/.test(rest)) break;
      take(pattern, (groups) => {
        const found = again(groups, by);
        const right = typeof found === 'boolean' ? found : found.join('; ') === groups.join('; ');
        if (!right)
          wrong.push(`[${moment.name}] ${text} (again: ${typeof found === 'boolean' ? 'not so' : found.join('; ')})`);
      });
    }
    for (const { pattern } of left) take(pattern, () => undefined);
    if (/\d/.test(rest)) wrong.push(`[${moment.name}] not counted again: ${text}   [left: ${rest}]`);
  }
  return wrong;
}
