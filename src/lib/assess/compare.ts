import { countedCases } from '../audit';
import type { Procedure } from '../model';
import { lookingBack, type Compared, type LookingBack } from '../practice';
import { cannotCompareWords, cannotLookBackWords } from '../words';
import { lookingBackRows, lookingBackWords, type LookingBackWords } from '../words/looking-back';
import type { ComparedJson, CompareJson } from './compare-json';
import type { ReadRecord } from './from-reading';

/** Two stretches by the codes of their first and last case, those included. */
export type CompareWish = { earlier: [from: string, to: string]; later: [from: string, to: string]; fixed: boolean };

export type Comparison = { json: CompareJson; words: LookingBackWords; rows: readonly string[] };

/** Cases of a file compared with others of it. Codes that are not in it leave a stretch empty, which is a returned case. */
export function comparisonOf(wish: CompareWish, { cases, lists }: ReadRecord, procedure: Procedure): Comparison {
  const counted = countedCases(cases, procedure);
  const [earlier, later] = [wish.earlier, wish.later].map(([from, to]) => {
    const [first, last] = [from, to].map((code) => counted.findIndex((one) => one.code === code)) as [number, number];
    return first < 0 || last < 0 ? [] : counted.slice(first, last + 1).map(({ id }) => id);
  }) as [string[], string[]];
  const said = lookingBack({ cases, lists, procedure, earlier, later, fixed: wish.fixed });
  const named = ([from, to]: [string, string]) => `in cases ${from} to ${to}`;
  const words = lookingBackWords(said, { earlier: named(wish.earlier), later: named(wish.later) });
  return { json: jsonOf(wish, said, words), words, rows: said.kind === 'compared' ? rowsOf(said) : [] };
}

function jsonOf(wish: CompareWish, said: LookingBack, { head }: LookingBackWords): CompareJson {
  const stretch = ([from, to]: [string, string], which: 'earlier' | 'later') => ({
    from,
    to,
    cases: said[which].cases.length,
    lists: said[which].lists,
  });
  const done = said.kind === 'compared' ? said : null;
  return {
    fixed: wish.fixed,
    alpha: done?.alpha ?? null,
    earlier: stretch(wish.earlier, 'earlier'),
    later: stretch(wish.later, 'later'),
    said: head,
    steps: (done?.steps ?? []).map(({ stepId, label, earlier, later, compared }) => ({
      step: stepId,
      label,
      n: [earlier.n, later.n],
      median_s: [earlier.median, later.median],
      ...comparedJson(compared),
    })),
    whole: done && comparedJson(done.whole),
    cannot: said.kind === 'cannot' ? { code: said.why.code, because: cannotLookBackWords(said.why) } : null,
  };
}

function comparedJson(compared: Compared): ComparedJson {
  if (compared.kind === 'cannot') {
    const cannot = { code: compared.why.code, because: cannotCompareWords(compared.why) };
    return { named: null, ratio: null, low: null, high: null, method: null, cannot };
  }
  const { estimate, low, high, method } = compared.effect;
  return {
    named: compared.kind === 'not-clear' ? null : compared.kind,
    ratio: Math.exp(estimate),
    low: Math.exp(low),
    high: Math.exp(high),
    method,
    cannot: null,
  };
}

function rowsOf(said: Extract<LookingBack, { kind: 'compared' }>): string[] {
  const rows = lookingBackRows(said);
  const width = Math.max(0, ...rows.map(({ label }) => label.length));
  return [
    ...rows.map(
      ({ label, words, under, bold }) => `  ${label.padEnd(width)}  ${words}${bold ? ', named' : ''}; ${under}`,
    ),
    ...said.steps.flatMap(({ label, compared }) =>
      compared.kind === 'cannot' ? [`  ${label.padEnd(width)}  not compared: ${cannotCompareWords(compared.why)}`] : [],
    ),
  ];
}
