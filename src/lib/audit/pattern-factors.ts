import { median } from '../statistics';
import type { EyeFact, ListRecord } from '../model';
import { factOf } from './eye-coding';
import { factPhrase, inSentence } from '../format';
import { auditThresholds } from './thresholds';
import type { Pattern, StepTable } from './types';

/** Something a step may take longer with: which cases have it, which do not, and which say nothing. */
export type Factor = {
  id: string;
  kind: Pattern['kind'];
  /** As it stands in a sentence: "nucleus hard or very hard". */
  label: string;
  /** One a case: 1 with, 0 without, −1 not compared. */
  group: Int8Array;
  /** For a number: its value a case, NaN where not entered; tested by rank correlation. */
  values: Float64Array | null;
  /** The fact of the eye it belongs to: its own share is put back into the adjusted times before the test. */
  factId: string | null;
  /** Levels of a yes/no fact or a choice that count as having it. */
  levels?: readonly string[];
};

/** Factors that are the same for every step: recorded facts of the eye, facts of the list, place in the list. */
export function sharedFactors(table: StepTable, lists: readonly ListRecord[]): Factor[] {
  return [
    ...table.procedure.facts.flatMap((fact) => factFactors(table, fact)),
    ...listFactors(table, lists),
    ...placeFactors(table, lists),
  ];
}

function factFactors(table: StepTable, fact: EyeFact): Factor[] {
  const values = table.cases.map((case_) => factOf(case_, fact));
  if (fact.kind !== 'number') {
    const levels = fact.kind === 'yes-no' ? ['false', 'true'] : (fact.levels ?? []).map(({ id }) => id);
    const texts = values.map((value) => (value === null ? null : String(value)));
    return levelGroups(texts, levels).map((group) => ({
      id: `${fact.id}=${group.levels.join('+')}`,
      kind: 'fact',
      label: factLabel(fact, group.levels),
      group: group.group,
      values: null,
      factId: fact.id,
      levels: group.levels,
    }));
  }
  const entered = values.filter((value) => typeof value === 'number');
  if (entered.length === 0) return [];
  const middle = median(entered);
  const group = Int8Array.from(values, (value) => (typeof value !== 'number' ? -1 : value > middle ? 1 : 0));
  return [
    {
      id: fact.id,
      kind: 'fact',
      label: `${inSentence(fact.label)} above ${Number(middle.toFixed(2))}${fact.unit ? ` ${fact.unit}` : ''}`,
      group,
      values: Float64Array.from(values, (value) => (typeof value === 'number' ? value : NaN)),
      factId: fact.id,
    },
  ];
}

/** Levels of a fact as they stand in a sentence: "nucleus hard or very hard". */
export function factLabel(fact: EyeFact, levels: readonly string[]): string {
  if (fact.kind === 'choice')
    return `${inSentence(fact.label)} ${levels.map((id) => fact.levels?.find((level) => level.id === id)?.label ?? id).join(' or ')}`;
  return factPhrase(fact, levels[0] === 'true');
}

/**
 * Each level against the commonest one. A level with fewer than five cases is taken together with its neighbours
 * on the same side of the commonest (hard with very hard), so that rare eyes are not lost.
 */
function levelGroups(
  values: readonly (string | null)[],
  order: readonly string[],
): { levels: string[]; group: Int8Array }[] {
  const count = (level: string) => values.filter((value) => value === level).length;
  const used = order.filter((level) => count(level) > 0);
  const commonest = [...used].sort((a, b) => count(b) - count(a))[0];
  if (commonest === undefined) return [];
  const middle = used.indexOf(commonest);
  // Outwards from the commonest on both sides, so that what is pooled is the far end of the scale.
  const sides = [used.slice(middle + 1), used.slice(0, middle).reverse()];
  return sides
    .flatMap((side) => pooled(side, count))
    .map((levels) => ({
      levels: order.filter((level) => levels.includes(level)),
      group: Int8Array.from(values, (value) =>
        value === commonest ? 0 : value !== null && levels.includes(value) ? 1 : -1,
      ),
    }));
}

function pooled(side: readonly string[], count: (level: string) => number): string[][] {
  const groups: string[][] = [];
  let open: string[] = [];
  const size = (levels: readonly string[]) => levels.reduce((sum, level) => sum + count(level), 0);
  for (const level of side) {
    open.push(level);
    if (size(open) < auditThresholds.levelCases) continue;
    groups.push(open);
    open = [];
  }
  const last = groups.at(-1);
  // A small far end joins the nearest group rather than being dropped.
  if (open.length > 0)
    if (last) last.push(...open);
    else groups.push(open);
  return groups;
}

function listFactors(table: StepTable, lists: readonly ListRecord[]): Factor[] {
  const records = new Map(lists.map((record) => [record.id, record]));
  const about = (read: (record: ListRecord) => string | null) =>
    table.cases.map(({ listId }) => {
      const record = listId === null ? undefined : records.get(listId);
      return record ? read(record) : null;
    });
  const factors = (id: string, values: (string | null)[], label: (level: string) => string): Factor[] => {
    const levels = [...new Set(values.filter((value) => value !== null))].sort();
    const count = (level: string) => values.filter((value) => value === level).length;
    const commonest = [...levels].sort((a, b) => count(b) - count(a))[0];
    return levels
      .filter((level) => level !== commonest)
      .map((level) => ({
        id: `${id}=${level}`,
        kind: 'fact',
        label: label(level),
        group: Int8Array.from(values, (value) => (value === level ? 1 : value === commonest ? 0 : -1)),
        values: null,
        factId: null,
      }));
  };
  return [
    ...factors(
      'list-anaesthesia',
      about(({ anaesthesia }) => anaesthesia),
      (level) => `anaesthesia: ${level}`,
    ),
    ...factors(
      'list-machine',
      about(({ machine }) => machine),
      (level) => `machine: ${level}`,
    ),
    ...factors(
      'list-teaching',
      about(({ teaching }) => (teaching === null ? null : teaching ? 'yes' : 'no')),
      (level) => (level === 'yes' ? 'teaching lists' : 'lists without teaching'),
    ),
  ];
}

/** First on the list, and the last third of it. The place is the one given, else the order of the timed cases. */
function placeFactors(table: StepTable, lists: readonly ListRecord[]): Factor[] {
  const operated = new Map(lists.map((record) => [record.id, record.operated]));
  const seen = new Map<string, number>();
  const places = table.cases.map(({ listId, position }) => {
    if (listId === null) return null;
    const rank = (seen.get(listId) ?? 0) + 1;
    seen.set(listId, rank);
    return { listId, position, rank };
  });
  const size = new Map<string, number>();
  for (const place of places)
    if (place)
      size.set(
        place.listId,
        Math.max(size.get(place.listId) ?? operated.get(place.listId) ?? 0, place.position ?? place.rank),
      );
  const factor = (
    id: string,
    label: string,
    atLeast: number,
    is: (position: number, of: number) => boolean,
  ): Factor => ({
    id,
    kind: 'place',
    label,
    group: Int8Array.from(places, (place) => {
      const of = place ? (size.get(place.listId) ?? 0) : 0;
      // Where only some of a list were timed and places were not noted, the order among them says little.
      const position = place && (place.position ?? (of === seen.get(place.listId) ? place.rank : null));
      return position === null || of < atLeast ? -1 : is(position, of) ? 1 : 0;
    }),
    values: null,
    factId: null,
  });
  return [
    factor('place-first', 'first on the list', 2, (position) => position === 1),
    factor('place-last-third', 'last third of the list', 3, (position, of) => position > (2 * of) / 3),
  ];
}
