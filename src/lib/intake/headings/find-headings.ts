import type { Procedure } from '../../model';
import { mapped, type Work } from '../../turns';
import type { Row, Sheet } from '../table/cells';
import { columnKeys } from './column-set';
import { parseDuration } from '../table/duration';
import type { OwnColumn } from './columns';
import { headingMatcher } from './headings';
import type { Layout } from './targets';
import type { Ledger } from '../ledger';
import { textPointsToAPerson } from '../table/people';
import { targetOf, type Target } from './targets';
import { intakeThresholds } from '../thresholds';

export type Found = { headings: readonly string[]; layout: Layout; body: Row[]; above: Row[] };

/**
 * The row that says most is the row of headings: titles and blank rows may stand above it. `null`: none makes a layout.
 *
 * @param choices headings whose meaning was chosen by hand count as what was chosen.
 */
export function* findHeadings(
  { rows }: Sheet,
  procedures: readonly Procedure[],
  choices: Readonly<Record<string, string>>,
): Work<Found | null> {
  const first = rows.slice(0, intakeThresholds.headingRows).map(({ cells }) => cells);
  const scored = function* (cells: readonly string[], layout: Layout): Work<number> {
    let best = 0;
    for (const procedure of procedures) best = Math.max(best, yield* headingScore(cells, procedure, layout, choices));
    return best;
  };
  let best: { at: number; score: number; layout: Layout } | null = null;
  for (const [at, cells] of first.entries())
    for (const layout of ['stretches', 'cases'] as const) {
      const score = yield* scored(cells, layout);
      if (score > (best?.score ?? 1)) best = { at, score, layout };
    }
  // Only where no row makes a layout of times: a code or a place, and at least two things that are asked of every case.
  for (let at = 0; best === null && at < first.length; at += 1) {
    const score = yield* scored(first[at] ?? [], 'sheet');
    if (score > 0) best = { at, score, layout: 'sheet' };
  }
  if (!best) {
    // Cells without headings, once it was said by hand what each column holds.
    const headings = standInHeadings(first[0] ?? []);
    if (headings === first[0]) return null;
    for (const layout of ['stretches', 'cases'] as const)
      if ((yield* scored(headings, layout)) > 0) return { headings, layout, body: [...rows], above: [] };
    return null;
  }
  return {
    headings: rows[best.at]?.cells ?? [],
    layout: best.layout,
    body: rows.slice(best.at + 1),
    above: rows.slice(0, best.at),
  };
}

/** An unknown heading is held against every name a step goes by. */
const HEADINGS_A_SLICE = 10;

const ASKED: readonly OwnColumn[] = ['more', 'hands', 'case-hands', 'event'];

const holdsATime = (cells: readonly string[]): boolean =>
  cells.some((cell) => /^[\d:.,]*\d/.test(cell) && 'seconds' in parseDuration(cell));

/** Names of columns where the first row is data: pasted cells often come without headings. */
export const standInHeadings = (first: readonly string[]): readonly string[] =>
  holdsATime(first) ? first.map((_, index) => `column ${index + 1}`) : first;

/** How many headings are understood, if together they make a layout; 0 if they do not. */
function* headingScore(
  cells: readonly string[],
  procedure: Procedure,
  layout: Layout,
  choices: Readonly<Record<string, string>>,
): Work<number> {
  // A row that holds a time is no heading, whatever names stand in it.
  if (holdsATime(cells)) return 0;
  const match = headingMatcher(procedure, layout);
  const keys = columnKeys(cells);
  const target = (cell: string, index: number): Target | undefined =>
    cell === '' ? undefined : (targetOf(choices[keys[index] ?? ''] ?? '', procedure) ?? match(cell).targets[0]);
  const targets = yield* mapped(cells, target, HEADINGS_A_SLICE);
  const own = (id: string) => targets.some((target) => target?.what === 'own' && target.id === id);
  const steps = targets.filter((target) => target?.what.startsWith('step-')).length;
  const asked = targets.filter(
    (target) =>
      target?.what === 'fact' || target?.what === 'seen' || (target?.what === 'own' && ASKED.includes(target.id)),
  ).length;
  const makes = {
    stretches: own('step') && (own('start') || own('end') || own('seconds')),
    cases: steps > 0,
    sheet: own('case') && asked >= 2,
  }[layout];
  if (!makes) return 0;
  // A file with a step column is one of stretches, whatever else its headings might name.
  return targets.filter((target) => target && target.what !== 'leave').length + (layout === 'stretches' ? 100 : 0);
}

/** Names what is missing where nothing could be found. */
export function sayNoHeadings({ rows: [first] }: Sheet, ledger: Ledger): void {
  // A first row that is no heading may hold a person's data: then it is not repeated.
  const shown = first?.cells.join(' · ').slice(0, 120) ?? null;
  const safe = first?.cells.some(textPointsToAPerson) ? null : shown;
  const why = first
    ? 'No headings were understood. The first row must name the columns: case_id, step and start_s, end_s or seconds; or case_id and one column for each step. Say below what each column holds, or add the headings.'
    : 'The file is empty. Bring in a file with one row for each stretch or case, under headings.';
  ledger.refuseCell(first?.row ?? null, null, safe, why);
}
