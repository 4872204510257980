import type { EyeFact, Procedure, SurgeonRecord } from '../../../model';
import { counted } from '../../../format';
import { asShipped, sameProcedure } from './as-shipped';
import { namesText } from './lines';
import { takingOut } from './steps';
import { useOf, type ProcedureUse } from './use';

export type ProceduresView = readonly { href: string; name: string; words: string }[];

/** Every procedure, with where it comes from and how much of the record is of it. */
export function proceduresView(
  record: Pick<SurgeonRecord, 'procedures' | 'cases'>,
  shipped: readonly Procedure[],
): ProceduresView {
  return record.procedures.map((procedure) => ({
    href: `/settings/procedures/${procedure.id}`,
    name: procedure.name,
    words: [
      originWords(procedure, shipped.find(({ id }) => id === procedure.id) ?? null),
      counted(procedure.steps.filter(({ retired }) => !retired).length, 'step'),
      counted(record.cases.filter(({ procedureId }) => procedureId === procedure.id).length, 'case'),
    ].join(', '),
  }));
}

function originWords(procedure: Procedure, shipped: Procedure | null): string {
  if (!shipped) return 'your own';
  return sameProcedure(procedure, shipped) ? 'as shipped' : 'shipped, with your changes';
}

export type StepRowView = {
  id: string;
  label: string;
  href: string;
  clock: string;
  marks: string;
  timings: string;
  guidance: { href: string; words: string };
  first: boolean;
  last: boolean;
  taking: 'retire' | 'delete';
};

export type ProcedureView = {
  id: string;
  name: string;
  synonyms: string;
  origin: string;
  cases: string;
  steps: readonly StepRowView[];
  retired: readonly { id: string; label: string; timings: string }[];
  facts: readonly {
    id: string;
    label: string;
    href: string;
    words: string;
    first: boolean;
    last: boolean;
    taking: 'keep' | 'delete' | 'none';
  }[];
  reasons: string;
  events: string;
  /** What putting it back to as shipped would keep; `null` where there is nothing to put back. */
  putBack: { keeps: readonly string[] } | null;
  /** An own procedure can go while nothing rests on it. `null` for a shipped one. */
  removal: { able: boolean; why: string } | null;
};

/** @param pages ids of steps with written guidance */
export function procedureView(
  procedure: Procedure,
  record: SurgeonRecord,
  shipped: Procedure | null,
  pages: ReadonlySet<string>,
): ProcedureView {
  const use = useOf(record, procedure.id);
  const live = procedure.steps.filter(({ retired }) => !retired);
  const own = (stepId: string) =>
    record.profile.ownCheckpoints.filter((one) => one.procedureId === procedure.id && one.stepId === stepId).length;
  return {
    id: procedure.id,
    name: procedure.name,
    synonyms: namesText(procedure.synonyms),
    origin: originWords(procedure, shipped),
    cases: use.cases === 0 ? 'no case yet' : counted(use.cases, 'case'),
    steps: live.map((step, index) => ({
      id: step.id,
      label: step.label,
      href: `/settings/procedures/${procedure.id}/steps/${step.id}`,
      clock: `From: ${step.starts}. To: ${step.ends}.`,
      marks: [
        ...(step.notToShorten ? ['not to shorten'] : []),
        ...(step.optional ? ['optional'] : []),
        ...(step.mergeOf ? ['in place of its parts, timed as one'] : []),
        ...step.protectedParts.map(({ label }) => `protected part: ${label.charAt(0).toLowerCase()}${label.slice(1)}`),
      ].join('; '),
      timings: timingWords(use, step.id),
      guidance: {
        href: `/checkpoints/${procedure.id}/${step.id}`,
        words: guidanceWords(pages.has(step.id), own(step.id)),
      },
      first: index === 0,
      last: index === live.length - 1,
      taking: takingOut(step, use, procedure, shipped),
    })),
    retired: procedure.steps
      .filter(({ retired }) => retired)
      .map(({ id, label }) => ({ id, label, timings: timingWords(use, id) })),
    facts: procedure.facts.map((fact, index) => ({
      id: fact.id,
      label: fact.label,
      href: `/settings/procedures/${procedure.id}/facts/${fact.id}`,
      words: factUseWords(fact, use),
      first: index === 0,
      last: index === procedure.facts.length - 1,
      taking: !use.facts.has(fact.id) ? 'delete' : fact.asked === 'file' ? 'none' : 'keep',
    })),
    reasons: procedure.waitingReasons.map(({ label }) => label).join(' · '),
    events: procedure.eventKinds.map(({ label }) => label).join(' · '),
    putBack:
      shipped && !sameProcedure(procedure, asShipped(procedure, shipped, use))
        ? { keeps: keptWords(procedure, shipped, use) }
        : null,
    removal: shipped ? null : removalOf(procedure, record, use),
  };
}

const timingWords = (use: ProcedureUse, stepId: string): string => {
  const timed = use.timed.get(stepId) ?? 0;
  return timed === 0 ? 'no timing yet' : `timed in ${counted(timed, 'case')}`;
};

function guidanceWords(hasPage: boolean, own: number): string {
  if (hasPage) return own > 0 ? `checkpoints, ${own} of them yours` : 'checkpoints';
  return own > 0 ? `${counted(own, 'checkpoint')} of your own` : 'an empty page for checkpoints';
}

function factUseWords(fact: EyeFact, use: ProcedureUse): string {
  const answers =
    fact.kind === 'choice'
      ? (fact.levels ?? []).map(({ key, label }) => `${key} ${label}`).join(', ')
      : fact.kind === 'number'
        ? `a number${fact.unit ? ` in ${fact.unit}` : ''}`
        : (fact.levels?.map(({ key, label }) => `${key} ${label}`).join(', ') ?? 'yes or no');
  const asked =
    fact.asked === 'more'
      ? `letter ${fact.key ?? '?'} under "anything else"`
      : fact.asked === 'file'
        ? `${answers}; taken from files, never asked`
        : answers;
  return `${asked}; ${enteredWords(fact.id, use)}`;
}

/** "entered in 171 cases"; reference sets count, and it says so. */
export function enteredWords(factId: string, use: ProcedureUse): string {
  const entered = use.facts.get(factId) ?? 0;
  if (entered === 0) return 'not entered yet';
  return `entered in ${counted(entered, 'case')}${use.hasReferences ? ', reference sets included' : ''}`;
}

/** What of the surgeon's own would stay, since the record rests on it. */
function keptWords(procedure: Procedure, shipped: Procedure, use: ProcedureUse): string[] {
  const back = asShipped(procedure, shipped, use);
  const extra = (all: readonly { id: string; label: string }[], of: readonly { id: string }[]) =>
    all.filter(({ id }) => !of.some((each) => each.id === id)).map(({ label }) => label);
  const steps = extra(back.steps, shipped.steps);
  const facts = extra(back.facts, shipped.facts);
  const words = [...extra(back.waitingReasons, shipped.waitingReasons), ...extra(back.eventKinds, shipped.eventKinds)];
  return [
    ...(steps.length > 0 ? [`${steps.join(', ')}: retired, with all timings.`] : []),
    ...(facts.length > 0 ? [`${facts.join(', ')}: with all answers, no longer asked.`] : []),
    ...(words.length > 0 ? [`${words.join(', ')}: noted in cases, so kept.`] : []),
  ];
}

function removalOf(procedure: Procedure, record: SurgeonRecord, use: ProcedureUse): { able: boolean; why: string } {
  const { profile } = record;
  const able = false;
  if (use.cases > 0) return { able, why: `The record holds ${counted(use.cases, 'case')} of it, so it stays.` };
  if (record.goals.some(({ procedureId }) => procedureId === procedure.id))
    return { able, why: 'A goal belongs to it, so it stays.' };
  if (record.references.some(({ procedureId }) => procedureId === procedure.id))
    return { able, why: 'A reference set belongs to it. Remove that first.' };
  if (profile.ownCheckpoints.some(({ procedureId }) => procedureId === procedure.id))
    return { able, why: 'Checkpoints of your own belong to it. Remove those first.' };
  if (profile.procedureId === procedure.id)
    return { able, why: 'It is your main procedure. Choose another one in Settings first.' };
  return { able: true, why: 'No case uses it yet, so it can be removed.' };
}
