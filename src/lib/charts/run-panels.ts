import { NARROW, type Width } from './drawn';
import type { RunCase, RunInput } from './run-input';

/** Under this a case's mark runs into its neighbour's. */
export const LEAST_PER_CASE = 6;
/** On a phone: enough baseline cases to see what the next twenty are set against, few enough to leave them room. */
const NARROW_START = 20;

export type Segment = { period: number; cases: readonly RunCase[]; total: number };
export type Panel = { segments: readonly Segment[]; count: number };

/**
 * Which cases go where: periods side by side while every case keeps at least 6 px, further ones in a panel below.
 * A period that may be shortened shows its latest cases only: on a phone, or where it alone would fill more than a row.
 * @param room px between the axis and the right edge
 */
export function runPanels(input: RunInput, room: number, width: Width): Panel[] {
  const fits = Math.floor(room / LEAST_PER_CASE);
  const alone = input.periods.length === 1;
  const segments = input.periods.flatMap((period, index): Segment[] => {
    const all = input.cases.filter((each) => each.period === index);
    if (all.length === 0) return [];
    const most = !period.mayShorten || alone ? fits : width === NARROW ? NARROW_START : fits - NARROW_START;
    return splitIn(all.slice(period.mayShorten ? -most : 0), fits).map((cases) => ({
      period: index,
      cases,
      total: all.length,
    }));
  });
  const panels: Panel[] = [];
  for (const segment of segments) {
    const last = panels[panels.length - 1];
    if (last && last.count + segment.cases.length <= fits)
      panels[panels.length - 1] = {
        segments: [...last.segments, segment],
        count: last.count + segment.cases.length,
      };
    else panels.push({ segments: [segment], count: segment.cases.length });
  }
  return panels;
}

function splitIn<T>(values: readonly T[], most: number): (readonly T[])[] {
  const parts: (readonly T[])[] = [];
  for (let from = 0; from < values.length; from += most) parts.push(values.slice(from, from + most));
  return parts;
}
