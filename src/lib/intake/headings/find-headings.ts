import type { Procedure } from '../../model';
import type { Steps } from '../../turns';
import type { Context } from '../context';
import type { Row, Sheet } from '../table/cells';
import { parseDuration } from '../table/duration';
import { intakeThresholds } from '../thresholds';
import type { OwnColumn } from './columns';
import { readHeadings, type Heading } from './read-headings';
import type { Layout } from './targets';

/** The row of headings, as each procedure reads it, with the rows under and above it. */
export type Found = {
  headings: readonly string[];
  layout: Layout;
  read: ReadonlyMap<Procedure, readonly Heading[]>;
  body: readonly Row[];
  above: readonly Row[];
  /** Chapter marks of one recording, written as a sheet to be read. */
  chapters: boolean;
};

type Scored = Pick<Found, 'headings' | 'layout' | 'read'> & { score: number };

/**
 * The row that says most is the row of headings: titles and blank rows may stand above it. `null`: none makes a layout.
 * Headings whose meaning was chosen by hand count as what was chosen.
 */
export function* findHeadings({ rows, chapters }: Sheet, context: Context): Steps<Found | null> {
  const first = rows.slice(0, intakeThresholds.headingRows);
  let best: { at: number; row: Scored } | null = null;
  for (const [at, { cells }] of first.entries())
    for (const layout of ['stretches', 'cases'] as const) {
      const row = yield* scored(cells, layout, context);
      if (row.score > (best?.row.score ?? 1)) best = { at, row };
    }
  // Only where no row makes a layout of times: a code, and something that is asked of every case.
  for (let at = 0; best === null && at < first.length; at += 1) {
    const row: Scored = yield* scored(first[at]?.cells ?? [], 'sheet', context);
    if (row.score > 0) best = { at, row };
  }
  if (best) return { ...best.row, body: rows.slice(best.at + 1), above: rows.slice(0, best.at), chapters };
  // Cells without headings, once it was said by hand what each column holds.
  const cells = rows[0]?.cells ?? [];
  const headings = standInHeadings(cells);
  if (headings === cells) return null;
  for (const layout of ['stretches', 'cases'] as const) {
    const row = yield* scored(headings, layout, context);
    if (row.score > 0) return { ...row, body: rows, above: [], chapters };
  }
  return null;
}

const holdsATime = (cells: readonly string[]): boolean =>
  cells.some((cell) => /^[\d:.,]*\d/.test(cell) && 'seconds' in parseDuration(cell));

/** Names of columns where the first row is data: pasted cells often come without headings. */
export const standInHeadings = (first: readonly string[]): readonly string[] =>
  holdsATime(first) ? first.map((_, index) => `column ${index + 1}`) : first;

/** A row as headings, and how well the procedure reads it that reads it best. */
function* scored(headings: readonly string[], layout: Layout, { procedures, choices }: Context): Steps<Scored> {
  const read = new Map<Procedure, readonly Heading[]>();
  let score = 0;
  // A row that holds a time is no heading, whatever names stand in it.
  if (!holdsATime(headings))
    for (const procedure of procedures) {
      const ofProcedure = yield* readHeadings(headings, procedure, layout, choices);
      read.set(procedure, ofProcedure);
      score = Math.max(score, headingScore(ofProcedure, layout));
    }
  return { headings, layout, read, score };
}

const ASKED: readonly OwnColumn[] = ['more', 'hands', 'case-hands', 'event'];

/** How many headings are understood, if together they make a layout; 0 if they do not. */
function headingScore(headings: readonly Heading[], layout: Layout): number {
  const targets = headings.flatMap(({ text, chosen, match }) =>
    text === '' ? [] : (chosen ?? match?.targets[0] ?? []),
  );
  const own = (id: OwnColumn) => targets.some((target) => target.what === 'own' && target.id === id);
  const asked = targets.filter(
    (target) =>
      target.what === 'fact' ||
      target.what === 'level' ||
      target.what === 'seen' ||
      (target.what === 'own' && ASKED.includes(target.id)),
  );
  const makes = {
    stretches: own('step') && (own('start') || own('end') || own('seconds')),
    cases: targets.some(({ what }) => what.startsWith('step-')),
    sheet: own('case') && asked.length > 0,
  }[layout];
  if (!makes) return 0;
  // A file with a step column is one of stretches, whatever else its headings might name.
  return targets.filter(({ what }) => what !== 'leave').length + (layout === 'stretches' ? 100 : 0);
}
