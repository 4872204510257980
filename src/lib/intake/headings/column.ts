import type { Row } from '../table/cells';
import type { OwnColumn } from './columns';
import type { HeadingUnit } from './heading-unit';
import type { Target } from './targets';

export type How = 'exact' | 'loose' | 'position' | 'chosen' | 'none';

export type Column = {
  index: number;
  heading: string;
  key: string;
  target: Target;
  how: How;
  unit: HeadingUnit | null;
};

export type ColumnSet = {
  columns: readonly Column[];
  own: (id: OwnColumn) => Column | undefined;
};

export const cellOf = (row: Row, column: Column | undefined): string => (column ? (row.cells[column.index] ?? '') : '');
