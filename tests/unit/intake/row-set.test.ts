import * as fc from 'fast-check';
import { expect, it } from 'vitest';
import { RowSet } from '../../../src/lib/intake/row-set';

it('counts each row once, as a Set does', () => {
  fc.assert(
    fc.property(fc.array(fc.integer({ min: 1, max: 5000 })), (rows) => {
      const own = new RowSet();
      for (const row of rows) own.add(row);
      expect(own.size).toBe(new Set(rows).size);
    }),
    { numRuns: 300 },
  );
});
