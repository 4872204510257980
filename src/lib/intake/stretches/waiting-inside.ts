import { parted, type Steps } from '../../turns';
import type { Line, Draft } from '../cases/draft';
import { toMilliseconds } from '../table/duration';
import type { Ledger } from '../ledger';
import type { Ask } from '../questions';
import { intakeThresholds } from '../thresholds';
import { weights } from '../weights';

const lengthAlone = (line: Line): boolean => line.start === null;

/**
 * Waiting noted with a length alone beside a step noted with a length alone: is it part of that length? Asked once a
 * file. Stored times always hold it, so where it stands beside the step, the step is made longer by it.
 */
export function* settleWaiting(drafts: readonly Draft[], ours: boolean, ask: Ask, ledger: Ledger): Steps<void> {
  const found: { draft: Draft; line: Line }[] = [];
  for (const part of parted(drafts)) {
    yield part.length * weights.row;
    for (const draft of part) {
      for (const line of draft.lines)
        if (line.kind === 'waiting' && line.stepId !== null && lengthAlone(line)) found.push({ draft, line });
    }
  }
  if (found.length === 0) return;
  const inside =
    ours ||
    ask({
      id: 'waiting',
      question: 'Does the time of a step include the waiting noted beside it?',
      options: [
        { value: 'inside', label: 'yes: it is taken out of the step' },
        { value: 'beside', label: 'no: the step was noted without it' },
      ],
      guess: 'inside',
      examples: found
        .slice(0, intakeThresholds.examples)
        .map(({ draft, line }) => ({ row: line.row, text: `${draft.code} · ${line.seconds} s` })),
    }) === 'inside';
  for (const { draft, line } of found) {
    yield weights.row;
    const steps = draft.lines.filter((one) => one.kind === 'step' && one.stepId === line.stepId && lengthAlone(one));
    const [step] = steps;
    if (!step) continue;
    const held = steps.reduce((sum, { seconds }) => sum + seconds, 0);
    if (inside && line.seconds < held) continue;
    if (inside)
      ledger.query(
        line.row,
        line.column,
        line.written,
        'The waiting is as long as its step or longer, so it is taken as noted beside it. Check both.',
      );
    const seconds = toMilliseconds(step.seconds + line.seconds);
    if (seconds <= intakeThresholds.longestSeconds) step.seconds = seconds;
    else leaveOut(draft, line, step, ledger);
  }
}

function leaveOut(draft: Draft, waiting: Line, step: Line, ledger: Ledger): void {
  ledger.refuseCell(
    waiting.row,
    waiting.column,
    waiting.written,
    'With this waiting the step would be more than two hours, so neither is taken. Check both, and the unit.',
  );
  draft.lines = draft.lines.filter((one) => one !== waiting);
  draft.broken.push({ row: waiting.row, stepIds: step.stepId === null ? [] : [step.stepId] });
}
