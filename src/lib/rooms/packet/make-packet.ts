import { stepSecondsOf } from '../../audit';
import { PACKET_LEAST, type Case, type FactValue, type Procedure, type ReferencePacket } from '../../model';
import { hiddenCaseIds } from '../goals/hidden-times';
import type { Recorded } from '../goals/goal-window';
import { LEAST_ALIKE, poolRare, type FactGiven } from './pool-rare';

/** What went into a packet and what did not, for the surgeon whose cases they are; none of it is in the file. */
export type PacketMade = {
  packet: ReferencePacket;
  facts: readonly FactGiven[];
  /** Steps with a time in fewer than five cases. */
  stepsOut: readonly { id: string; cases: number }[];
  casesOut: CasesOut;
};

export type CasesOut = { leftOut: number; keptAsItIs: number; hidden: number; untimed: number };

/**
 * The surgeon's own cases of one procedure as a packet. The order of cases and lists goes by their times, so that nothing
 * of when they were is left; times are given to a tenth of a second.
 */
export function makePacket(
  record: Recorded,
  procedure: Procedure,
): PacketMade | { because: 'few'; cases: number; casesOut: CasesOut } {
  const casesOut: CasesOut = { leftOut: 0, keptAsItIs: 0, hidden: 0, untimed: 0 };
  const hidden = hiddenCaseIds(record);
  const steps = procedure.steps.map(({ id }) => id);
  const timed = record.cases.flatMap((one) => {
    if (one.procedureId !== procedure.id || one.invented) return [];
    const out = whyOut(one, hidden);
    const stepSeconds = out === null ? timesOf(one, steps) : {};
    const why = out ?? (Object.keys(stepSeconds).length === 0 ? 'untimed' : null);
    if (why !== null) casesOut[why] += 1;
    return why === null ? [{ one, stepSeconds }] : [];
  });
  const count = (id: string) => timed.filter(({ stepSeconds }) => stepSeconds[id] !== undefined).length;
  const stepsOut = steps
    .map((id) => ({ id, cases: count(id) }))
    .filter(({ cases }) => cases > 0 && cases < LEAST_ALIKE);
  const rare = new Set(stepsOut.map(({ id }) => id));
  const given = timed.flatMap(({ one, stepSeconds }) => {
    const left = Object.entries(stepSeconds).filter(([id]) => !rare.has(id));
    return left.length === 0 ? [] : [{ one, stepSeconds: Object.fromEntries(left) }];
  });
  casesOut.untimed += timed.length - given.length;
  if (given.length < PACKET_LEAST) return { because: 'few', cases: given.length, casesOut };

  const pooled = procedure.facts
    .map((fact) => ({
      id: fact.id,
      ...poolRare(
        fact,
        given.map(({ one }) => one.facts[fact.id]),
      ),
    }))
    .filter(({ about }) => about.given.length + about.pooled.length > 0);
  const cases = given.map(({ one, stepSeconds }, at) => ({
    listId: one.listId,
    facts: Object.fromEntries(
      pooled.flatMap(({ id, values }): [string, FactValue][] => {
        const value = values[at];
        return value === undefined ? [] : [[id, value]];
      }),
    ),
    stepSeconds,
  }));
  const used = new Set(cases.flatMap(({ stepSeconds }) => Object.keys(stepSeconds)));
  return {
    packet: {
      format: 'next-twenty/reference-packet/1',
      procedure: { id: procedure.id, name: procedure.name },
      steps: procedure.steps
        .filter(({ id }) => used.has(id))
        .map(({ id, label, starts, ends }) => ({ id, label, starts, ends })),
      facts: procedure.facts
        .filter(({ id }) => pooled.some((one) => one.id === id && one.about.given.length > 0))
        .map(({ id, label, levels = [] }) => ({
          id,
          label,
          levels: levels.map((level) => ({ id: level.id, label: level.label })),
        })),
      cases: inNoOrder(cases),
    },
    facts: pooled.map(({ about }) => about),
    stepsOut,
    casesOut,
  };
}

/** A case under a complaint or claim leaves the record in no form; the times of a running window are not seen by anybody. */
function whyOut(one: Case, hidden: ReadonlySet<string>): keyof CasesOut | null {
  if (one.leftOut !== null) return 'leftOut';
  if (one.keptAsItIs !== null) return 'keptAsItIs';
  return hidden.has(one.id) ? 'hidden' : null;
}

const timesOf = (one: Case, steps: readonly string[]): Record<string, number> =>
  Object.fromEntries(
    steps.flatMap((id): [string, number][] => {
      const seconds = stepSecondsOf(one, id);
      const tenths = seconds === null ? 0 : Math.round(seconds * 10) / 10;
      return tenths > 0 ? [[id, tenths]] : [];
    }),
  );

type Placed = { listId: string | null; facts: Record<string, FactValue>; stepSeconds: Record<string, number> };

/** Cases by their times within their list, lists by the times of their first case: the order says nothing of the calendar. */
function inNoOrder(cases: readonly Placed[]): ReferencePacket['cases'] {
  const byText = <T>(items: readonly T[], text: (item: T) => string) =>
    [...items].sort((a, b) => (text(a) < text(b) ? -1 : text(a) > text(b) ? 1 : 0));
  const inList = (listId: string | null) =>
    byText(
      cases.filter((one) => one.listId === listId),
      ({ stepSeconds, facts }) => JSON.stringify([stepSeconds, facts]),
    );
  const lists = [...new Set(cases.map(({ listId }) => listId))].filter((id) => id !== null).map(inList);
  const numbered = byText(lists, (list) => JSON.stringify(list.map(({ stepSeconds, facts }) => [stepSeconds, facts])));
  return [
    ...numbered.flatMap((list, at) => list.map(({ facts, stepSeconds }) => ({ list: at + 1, facts, stepSeconds }))),
    ...inList(null).map(({ facts, stepSeconds }) => ({ list: null, facts, stepSeconds })),
  ];
}
