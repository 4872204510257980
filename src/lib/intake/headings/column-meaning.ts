import type { Procedure } from '../../model';
import { factReader } from '../cases/facts';
import { gradeOf } from '../cases/grades';
import type { Ask } from '../questions';
import { blankOf } from '../table/blanks';
import type { Row } from '../table/cells';
import { intakeThresholds } from '../thresholds';
import type { How } from './column';
import type { Heading } from './read-headings';
import { leave, targetOf, targetValue, targetWords, type Layout, type Target } from './targets';

/** The first cells under a heading in which something stands. */
export const under = (rows: readonly Row[], index: number): string[] =>
  rows
    .slice(0, intakeThresholds.columnSample)
    .map(({ cells }) => cells[index] ?? '')
    .filter((cell) => blankOf(cell) === null);

/** As chosen, as the heading says, or as answered where it could mean more than one thing. */
export function meantBy(
  { text, key, chosen, match }: Heading,
  cells: readonly string[],
  about: { procedure: Procedure; layout: Layout; ask: Ask },
): { target: Target; how: How } {
  if (chosen) return { target: chosen, how: 'chosen' };
  const [first] = match?.targets ?? [];
  if (!match || !first || match.how === 'none') return { target: first ?? leave('unknown'), how: 'none' };
  if (match.how === 'unclear') {
    const answer = about.ask({
      id: key,
      question: `"${text}" could mean more than one thing. Which?`,
      options: [...match.targets, leave('chosen')].map((target) => ({
        value: targetValue(target),
        label: targetWords(target, about.procedure),
      })),
      guess: 'leave',
    });
    return {
      target: answer === 'leave' ? leave('unclear') : (targetOf(answer, about.procedure) ?? leave('unclear')),
      how: 'none',
    };
  }
  // "Nucleus" is a fact of the eye and a step: what stands under it tells, but for a sheet that has no times.
  const fact = match.targets.find((target) => target.what === 'fact');
  const step = match.targets.find((target) => target.what === 'step-time');
  if (fact && step && about.layout === 'sheet') return { target: fact, how: match.how };
  if (fact && step) return { target: readsAsFact(fact.id, cells, about.procedure) ? fact : step, how: match.how };
  return { target: first, how: match.how };
}

/**
 * Do so many of the cells read as levels that the column is this fact of the eye?
 *
 * @param grades `whole`: under a name that may be a step, decimals are as likely minutes.
 */
export function readsAsFact(
  id: string,
  cells: readonly string[],
  procedure: Procedure,
  grades: 'whole' | 'decimals' = 'whole',
): boolean {
  const fact = procedure.facts.find((one) => one.id === id);
  if (!fact) return false;
  const read = factReader(fact);
  const graded = (cell: string): boolean => {
    const grade = gradeOf(fact, cell);
    return grade !== null && (grades === 'decimals' || Number.isInteger(grade));
  };
  const levels = cells.filter((cell) => 'value' in read(cell) || graded(cell));
  return cells.length === 0 || levels.length >= intakeThresholds.factShare * cells.length;
}
