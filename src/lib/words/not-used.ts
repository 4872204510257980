import { inSentence, listed } from '../format';

const ONE = /^(.+) (?:is|are) not used: (.+)\.$/;

/** Facts that were not adjusted for, in one sentence by their reasons; what is no such sentence stays as it is, before it. */
export function notUsedTogether(said: readonly string[]): string[] {
  const others: string[] = [];
  const byReason = new Map<string, string[]>();
  for (const sentence of said) {
    const [, fact, reason] = ONE.exec(sentence) ?? [];
    if (fact === undefined || reason === undefined) others.push(sentence);
    else byReason.set(reason, [...(byReason.get(reason) ?? []), inSentence(fact)]);
  }
  if (byReason.size === 0) return others;
  return [
    ...others,
    `Not adjusted for: ${[...byReason].map(([reason, facts]) => `${listed(facts)} (${reason})`).join('; ')}.`,
  ];
}
