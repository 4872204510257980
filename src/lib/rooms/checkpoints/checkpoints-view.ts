import type { OwnCheckpoint, Procedure } from '../../model';
import type { Guidance } from '../../rules/types';

export type StepRow = {
  stepId: string;
  label: string;
  hasPage: boolean;
  checkpoints: number;
  own: number;
  href: string;
};
export type Hit = { stepLabel: string; href: string; where: string; text: string };

/** The steps of a procedure in order, each with what is written about it. */
export function stepRows(
  procedure: Procedure,
  guidance: readonly Guidance[],
  own: readonly OwnCheckpoint[],
): StepRow[] {
  return procedure.steps
    .filter((step) => !step.retired)
    .map((step) => {
      const page = guidance.find((each) => each.procedureId === procedure.id && each.step === step.id);
      return {
        stepId: step.id,
        label: step.label,
        hasPage: page !== undefined,
        checkpoints: page?.checkpoints.length ?? 0,
        own: own.filter((each) => each.procedureId === procedure.id && each.stepId === step.id).length,
        href: `/checkpoints/${procedure.id}/${step.id}`,
      };
    });
}

/** Every line of a procedure's guidance that holds all the words looked for; case and accents do not matter. */
export function searchGuidance(
  query: string,
  procedure: Procedure,
  guidance: readonly Guidance[],
  own: readonly OwnCheckpoint[],
): Hit[] {
  const words = plain(query).split(/\s+/).filter(Boolean);
  if (words.length === 0) return [];
  const has = (text: string) => words.every((word) => plain(text).includes(word));
  return procedure.steps.flatMap((step) => {
    const page = guidance.find((each) => each.procedureId === procedure.id && each.step === step.id);
    const href = `/checkpoints/${procedure.id}/${step.id}`;
    const lines: [where: string, text: string][] = page
      ? [
          ['aim', page.aim],
          ...page.checkpoints.map((each): [string, string] => ['checkpoint', each.look]),
          ...page.reminders.map((each): [string, string] => ['reminder', each]),
          ...page.stop.map((each): [string, string] => ['stop sign', each]),
          ...page.drills.map((each): [string, string] => [`drill, ${each.where}`, each.do]),
        ]
      : [];
    const mine = own
      .filter((each) => each.procedureId === procedure.id && each.stepId === step.id)
      .map((each): [string, string] => ['my own', each.look]);
    const found = [...lines, ...mine].filter(([, text]) => has(text));
    const named = has(step.label) || step.synonyms.some(has);
    if (found.length === 0 && named) found.push(['step', page?.aim ?? step.label]);
    return found.map(([where, text]) => ({ stepLabel: step.label, href, where, text }));
  });
}

const plain = (text: string) =>
  text
    .normalize('NFD')
    .replace(/\p{Diacritic}/gu, '')
    .toLowerCase();
