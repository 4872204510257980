/** A record of today under the names that files had up to version 3. */
export function asBefore4<T>(value: T): T {
  const names: readonly [string, string][] = [
    ['returnsNoted', 'wentBackNoted'],
    ['protectedSeen', 'keptSeen'],
    ['timesSeenWhileLeftOut', 'seenWhileOut'],
    ['baseline', 'start'],
    ['selectionAllowance', 'allowance'],
    ['selectionAllowanceSpread', 'allowanceSpread'],
  ];
  return JSON.parse(
    names.reduce((text, [today, before]) => text.replaceAll(`"${today}":`, `"${before}":`), JSON.stringify(value)),
  );
}
