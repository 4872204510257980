import { loadMethodPages } from '../../../src/lib/server/content';

/** The words of a method page on one line, without emphasis: what a worked example is looked for in. */
export function textOf(id: string): string {
  const page = loadMethodPages().find((each) => each.id === id);
  if (!page) throw new Error(`no method page "${id}"`);
  return page.body.replaceAll('*', '').replace(/\s+/g, ' ');
}

/** A row of a table in the page, its cells trimmed; found by its first cell. */
export function rowOf(id: string, first: string): string[] {
  const page = loadMethodPages().find((each) => each.id === id);
  const rows = (page?.body ?? '').split('\n').filter((line) => line.startsWith('|'));
  const cells = rows.map((line) =>
    line
      .slice(1, -1)
      .split('|')
      .map((cell) => cell.trim()),
  );
  const found = cells.filter(([cell]) => cell === first);
  if (found.length !== 1) throw new Error(`${found.length} rows "${first}" on the method page "${id}"`);
  return found[0]!;
}

/** The figures of one cell: "1.10, 1.00, 0.90" → [1.1, 1, 0.9]. */
export const figures = (cell: string | undefined): number[] =>
  (cell?.replaceAll('−', '-').match(/-?\d+(?:\.\d+)?/g) ?? []).map(Number);
