import { counted } from '../../format';
import type { EyeFact, FactValue, Procedure, ReferencePacket } from '../../model';
import type { CasesOut, PacketMade } from './make-packet';

/** What is in a packet, the same for whoever gives it and whoever gets it. */
export type InPacket = {
  cases: number;
  lists: number;
  onNoList: number;
  procedure: string;
  steps: readonly { label: string; cases: number }[];
  facts: readonly { label: string; values: readonly string[] }[];
};

export function inPacket(packet: ReferencePacket, procedure: Procedure): InPacket {
  const { cases } = packet;
  const steps = new Map(procedure.steps.map(({ id, label }) => [id, label]));
  return {
    cases: cases.length,
    lists: new Set(cases.flatMap(({ list }) => list ?? [])).size,
    onNoList: cases.filter(({ list }) => list === null).length,
    procedure: procedure.name,
    steps: packet.steps.map(({ id, label }) => ({
      label: steps.get(id) ?? label,
      cases: cases.filter(({ stepSeconds }) => stepSeconds[id] !== undefined).length,
    })),
    facts: packet.facts.map(({ id, label }) => {
      const fact = procedure.facts.find((one) => one.id === id);
      const counts = new Map<FactValue, number>();
      for (const { facts } of cases) {
        const value = facts[id];
        if (value !== undefined) counts.set(value, (counts.get(value) ?? 0) + 1);
      }
      const none = cases.length - [...counts.values()].reduce((sum, n) => sum + n, 0);
      return {
        label: fact?.label ?? label,
        values: [
          ...[...counts].map(([value, n]) => `${valueWords(fact, value)}: ${n}`),
          ...(none > 0 ? [`not entered: ${none}`] : []),
        ],
      };
    }),
  };
}

export const valueWords = (fact: EyeFact | undefined, value: FactValue): string =>
  typeof value === 'boolean'
    ? value
      ? 'yes'
      : 'no'
    : (fact?.levels?.find(({ id }) => id === value)?.label ?? String(value));

/** What of the surgeon's own record is not in it, and what was pooled. Sentences. */
export function notInPacket({ facts, stepsOut, casesOut }: PacketMade, procedure: Procedure): string[] {
  const pooled = facts.flatMap(({ factId, pooled: values }) => {
    const fact = procedure.facts.find(({ id }) => id === factId);
    return values.length === 0 || !fact
      ? []
      : [
          `${fact.label}: ${values.map(({ value, cases }) => `${valueWords(fact, value)} (${cases})`).join(', ')} given as not entered, so that no kind of eye stands in it for fewer than five cases.`,
        ];
  });
  const steps = stepsOut.map(({ id, cases }) => {
    const label = procedure.steps.find((step) => step.id === id)?.label ?? id;
    return `${label}: timed in ${counted(cases, 'case')}, fewer than five, so its times stay out.`;
  });
  return [...casesOutWords(casesOut), ...steps, ...pooled];
}

export function casesOutWords({ leftOut, keptAsItIs, hidden, untimed }: CasesOut): string[] {
  const stay = (n: number) => (n === 1 ? 'stays' : 'stay');
  return [
    ...(leftOut > 0 ? [`${counted(leftOut, 'case')} left out of your own counts ${stay(leftOut)} out here too.`] : []),
    ...(keptAsItIs > 0
      ? [`${counted(keptAsItIs, 'case')} kept as ${keptAsItIs === 1 ? 'it is' : 'they are'} ${stay(keptAsItIs)} out.`]
      : []),
    ...(hidden > 0 ? [`${counted(hidden, 'case')} whose times you have not seen yet ${stay(hidden)} out.`] : []),
    ...(untimed > 0 ? [`${counted(untimed, 'case')} without a step time of your own hands ${stay(untimed)} out.`] : []),
  ];
}
