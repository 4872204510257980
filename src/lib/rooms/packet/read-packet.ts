import {
  PACKET_LEAST,
  referencePacketSchema,
  same,
  type EyeFact,
  type FactValue,
  type Procedure,
  type ReferenceCase,
  type ReferencePacket,
  type ReferenceSet,
} from '../../model';

/** Longest packet read, letters: some twenty thousand cases. */
export const PACKET_LETTERS = 8_000_000;

/** Why a text is no packet that can be taken; `where`: the field, where one is wrong. */
export type NoPacket =
  | { because: 'empty' | 'too-long' | 'no-json' | 'other-format' }
  | { because: 'field'; where: string; why: string }
  | { because: 'procedure'; name: string }
  | { because: 'few'; cases: number };

/** A packet against one's own procedures: what would be kept of it, and what not. */
export type PacketRead = {
  packet: ReferencePacket;
  procedure: Procedure;
  cases: ReferenceCase[];
  /** Their clock of the step starts or stops elsewhere. */
  otherClocks: readonly {
    id: string;
    label: string;
    theirs: { starts: string; ends: string };
    ours: { starts: string; ends: string };
  }[];
  /** Steps and facts that the procedure here does not have. */
  stepsUnknown: readonly string[];
  factsUnknown: readonly string[];
  /** The same cases are a set of the record already. */
  there: string | null;
};

/** Reads a packet; never throws on what a text holds. */
export function readPacket(
  text: string,
  { procedures, references }: { procedures: readonly Procedure[]; references: readonly ReferenceSet[] },
): PacketRead | NoPacket {
  if (text.trim() === '') return { because: 'empty' };
  if (text.length > PACKET_LETTERS) return { because: 'too-long' };
  const value = parsed(text);
  if (value === undefined) return { because: 'no-json' };
  const format = typeof value === 'object' && value !== null ? (value as { format?: unknown }).format : undefined;
  if (format !== 'next-twenty/reference-packet/1') return { because: 'other-format' };
  const read = referencePacketSchema.safeParse(value);
  if (!read.success) {
    const count = casesIn(value);
    if (count !== null && count < PACKET_LEAST) return { because: 'few', cases: count };
    const [issue] = read.error.issues;
    return { because: 'field', where: (issue?.path ?? []).join('.') || 'the file', why: issue?.message ?? '' };
  }
  const packet = read.data;
  const procedure = procedures.find(({ id }) => id === packet.procedure.id);
  if (!procedure) return { because: 'procedure', name: packet.procedure.name };
  const steps = new Map(procedure.steps.map((step) => [step.id, step]));
  const facts = new Map(procedure.facts.map((fact) => [fact.id, fact]));
  const cases = packet.cases.flatMap((one): ReferenceCase[] => {
    const stepSeconds = Object.fromEntries(Object.entries(one.stepSeconds).filter(([id]) => steps.has(id)));
    if (Object.keys(stepSeconds).length === 0) return [];
    const kept = Object.entries(one.facts).filter(([id, fact]) => fits(facts.get(id), fact));
    return [{ reader: 'R1', list: one.list, facts: Object.fromEntries(kept), stepSeconds }];
  });
  if (cases.length < PACKET_LEAST) return { because: 'few', cases: cases.length };
  return {
    packet,
    procedure,
    cases,
    otherClocks: packet.steps.flatMap(({ id, starts, ends }) => {
      const own = steps.get(id);
      if (!own || (own.starts === starts && own.ends === ends)) return [];
      return [{ id, label: own.label, theirs: { starts, ends }, ours: { starts: own.starts, ends: own.ends } }];
    }),
    stepsUnknown: packet.steps.filter(({ id }) => !steps.has(id)).map(({ label }) => label),
    factsUnknown: packet.facts.filter(({ id }) => !facts.has(id)).map(({ label }) => label),
    there: references.find((set) => set.procedureId === procedure.id && same(set.cases, cases))?.label ?? null,
  };
}

function parsed(text: string): unknown {
  try {
    return JSON.parse(text) as unknown;
  } catch {
    return undefined;
  }
}

function casesIn(value: unknown): number | null {
  const { cases } = value as { cases?: unknown };
  return Array.isArray(cases) ? cases.length : null;
}

/** Can this value be one of the fact here? A level nobody knows here would stand apart from all others. */
function fits(fact: EyeFact | undefined, value: FactValue): boolean {
  if (!fact) return false;
  if (fact.kind === 'number') return typeof value === 'number';
  if (fact.kind === 'yes-no') return typeof value === 'boolean';
  return (fact.levels ?? []).some(({ id }) => id === value);
}
