import type { EyeCaveat } from '../model';
import { inSentence, listed } from '../format';

/** A fact of the eye that was not adjusted for, and why; `many`: it and others. `null` where it was used in part. */
export function unusedFact(caveat: EyeCaveat): { what: string; why: string; many: boolean } | null {
  const one = (why: string) => ({ what: caveat.fact, why, many: false });
  switch (caveat.code) {
    case 'few-entered':
      return one(`entered in only ${caveat.entered} of ${caveat.of} cases`);
    case 'few-differ':
      return one(`only ${caveat.differ} of ${caveat.of} cases differ from the commonest`);
    case 'all-the-same':
      return one('the same in all cases');
    case 'tied':
      return one('it is tied to facts already used');
    case 'retired':
      return one('the procedure no longer has it');
    case 'too-few-from':
      return { what: `${caveat.fact} and the facts after it`, why: 'too few cases', many: true };
    case 'partly-tied':
    case 'rare-levels':
      return null;
  }
}

/** Facts that were not adjusted for, in one sentence by their reasons; every other caveat is said by itself, before it. */
export function notUsedTogether<Caveat extends { code: string }>(
  caveats: readonly (Caveat | EyeCaveat)[],
  say: (caveat: Caveat | EyeCaveat) => string,
): string[] {
  const others: string[] = [];
  const byReason = new Map<string, string[]>();
  for (const caveat of caveats) {
    const unused = 'fact' in caveat ? unusedFact(caveat) : null;
    if (!unused) others.push(say(caveat));
    else byReason.set(unused.why, [...(byReason.get(unused.why) ?? []), inSentence(unused.what)]);
  }
  if (byReason.size === 0) return others;
  return [
    ...others,
    `Not adjusted for: ${[...byReason].map(([reason, facts]) => `${listed(facts)} (${reason})`).join('; ')}.`,
  ];
}
