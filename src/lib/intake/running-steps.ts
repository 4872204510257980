import type { NewCase } from '../model';
import { stepLabel } from './headings/targets';
import type { Mapping } from './headings/mapping';
import type { Procedure } from '../model';
import type { Ask } from './questions';

/** The step of a goal that is running, in one procedure. */
export type RunningStep = { procedureId: string; stepId: string };

const idOf = (stepId: string) => `running:${stepId}`;

/** "That heading is the step of my goal" is a choice for that heading, or for that name. */
export function withRunningSteps(choices: Readonly<Record<string, string>>): Record<string, string> {
  const all = { ...choices };
  for (const [id, key] of Object.entries(choices)) {
    if (!id.startsWith('running:')) continue;
    const stepId = id.slice('running:'.length);
    if (key.startsWith('column:')) all[key] ||= `step-time:${stepId}`;
    if (key.startsWith('label:')) all[key] ||= `step:${stepId}`;
  }
  return all;
}

/** Where a file of times holds nothing of the step of a running goal, it is asked: its cases could not count. */
export function askRunningSteps(
  running: readonly RunningStep[],
  procedure: Procedure,
  cases: readonly NewCase[],
  mapping: readonly Mapping[],
  ask: Ask,
): void {
  const mine = cases.filter(({ procedureId, stretches }) => procedureId === procedure.id && stretches.length > 0);
  if (mine.length === 0) return;
  for (const { stepId } of running.filter(({ procedureId }) => procedureId === procedure.id)) {
    if (mine.some(({ stretches }) => stretches.some((stretch) => stretch.stepId === stepId))) continue;
    const step = stepLabel(procedure, stepId);
    const unread = mapping.filter(({ kind, value }) => kind !== 'value' && value === 'leave').slice(0, MOST);
    ask({
      id: idOf(stepId),
      question: `Your goal is on ${step.toLowerCase()}, and nothing in this file was read as it. Is it there under another name?`,
      options: [
        { value: 'not-timed', label: `no: ${step.toLowerCase()} was not timed, and these cases cannot count for it` },
        ...unread.map(({ key, from }) => ({ value: key, label: `yes: "${from}"` })),
      ],
      guess: 'not-timed',
      mustAnswer: true,
    });
  }
}

const MOST = 40;
