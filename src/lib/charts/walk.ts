import type { Point } from './drawn';

export type Place = { row: number; at: number };
type Points = readonly (readonly Point[])[];

/**
 * Where a key leads from a place: left and right along a row, up and down to the nearest point of the next row that has
 * any, Home and End along the row. `key` null: the place itself, or the first there is when it is gone.
 * @returns `null` for any other key, or when there is no point at all.
 */
export function stepThrough(points: Points, from: Place, key: string | null): Place | null {
  const row = points[from.row];
  const here = row?.[from.at];
  if (!row || !here) return firstPlace(points);
  switch (key) {
    case null:
      return from;
    case 'ArrowRight':
      return { row: from.row, at: Math.min(row.length - 1, from.at + 1) };
    case 'ArrowLeft':
      return { row: from.row, at: Math.max(0, from.at - 1) };
    case 'Home':
      return { row: from.row, at: 0 };
    case 'End':
      return { row: from.row, at: row.length - 1 };
    case 'ArrowDown':
    case 'ArrowUp':
      return nextRow(points, from.row, key === 'ArrowDown' ? 1 : -1, here.x) ?? from;
    default:
      return null;
  }
}

function firstPlace(points: Points): Place | null {
  const row = points.findIndex((each) => each.length > 0);
  return row < 0 ? null : { row, at: 0 };
}

function nextRow(points: Points, from: number, direction: 1 | -1, x: number): Place | null {
  for (let row = from + direction; row >= 0 && row < points.length; row += direction) {
    const there = points[row] ?? [];
    if (there.length === 0) continue;
    let at = 0;
    there.forEach((point, index) => {
      if (Math.abs(point.x - x) < Math.abs((there[at]?.x ?? Infinity) - x)) at = index;
    });
    return { row, at };
  }
  return null;
}

/** The point nearest to a place on the drawing, if one lies within `reach` px. */
export function nearestPoint(points: Points, x: number, y: number, reach: number): Place | null {
  let found: Place | null = null;
  let best = reach;
  points.forEach((row, rowIndex) =>
    row.forEach((point, at) => {
      const distance = Math.hypot(point.x - x, point.y - y);
      if (distance <= best) {
        best = distance;
        found = { row: rowIndex, at };
      }
    }),
  );
  return found;
}
