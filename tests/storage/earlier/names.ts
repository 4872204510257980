import type { StoredResult } from '../../../src/lib/model';

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

/** What a result was called before version 4, beyond the names that every document shares. */
export function resultBefore4(result: object): object {
  const text = JSON.stringify(asBefore4(result))
    .replaceAll('"baselineIds":', '"startIds":')
    .replaceAll('"nBaseline":', '"nStart":')
    .replaceAll('"baselineMedian":', '"startUsual":')
    .replaceAll('"rangeBaseline":', '"rangeStart":')
    .replaceAll('"priorTrend":', '"already":')
    .replaceAll('"caveats":', '"said":');
  return JSON.parse(text);
}

const SAID = 'Said as it was read.';

/** A result of today as files had it up to version 10: reasons as sentences. */
export function asBefore11({ outcome, ...result }: StoredResult): object {
  const { cannot } = outcome;
  const sentences = (of: readonly object[]) => of.map(() => SAID);
  const told = {
    cannot: cannot && { code: cannot.code, because: SAID },
    paused: sentences(outcome.paused),
    caveats: sentences(outcome.caveats),
  };
  return { ...result, outcome: { ...outcome, ...told } };
}

/** The same as it is read today: each sentence as it was. */
export function readFromBefore11({ outcome, ...result }: StoredResult): StoredResult {
  const { cannot } = outcome;
  const asRead = (of: readonly object[]) => of.map(() => ({ code: 'as-read' as const, sentence: SAID }));
  const told = {
    cannot: cannot && { code: 'as-read' as const, was: cannot.code, sentence: SAID },
    paused: asRead(outcome.paused),
    caveats: asRead(outcome.caveats),
  };
  return { ...result, outcome: { ...outcome, ...told } };
}
