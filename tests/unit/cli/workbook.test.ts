import { describe, expect, it } from 'vitest';
import { isWorkbook, sheetsOf } from '../../../src/cli/workbook';
import { workbook } from '../../browser/workbook';

const rows = (count: number) => Array.from({ length: count }, (_, at) => [`A${at}`, at, at + 0.5, 'hard']);

describe('a workbook read in a process of its own', () => {
  it('gives every sheet that holds something, as comma-separated text', async () => {
    const bytes = workbook({
      Times: [
        ['case_id', 'step'],
        ['A,1', 2.5],
      ],
      Empty: [],
    });
    expect(isWorkbook(bytes)).toBe(true);
    expect(isWorkbook(new TextEncoder().encode('case_id,step'))).toBe(false);
    expect(await sheetsOf(bytes)).toEqual({
      sheets: [{ name: 'Times', rows: 2, times: 1, text: 'case_id,step\n"A,1",2.5' }],
    });
  });

  it('is killed when it takes too long, and says so', async () => {
    const bytes = workbook({ Times: rows(25_000) });
    const began = Date.now();
    const read = await sheetsOf(bytes, { milliseconds: 150, megabytes: 1024 });
    expect(read).toEqual({ problem: expect.stringContaining('took more than 0.15 seconds') as string });
    // Far below the 30 s that are otherwise given, also where much else is running.
    expect(Date.now() - began).toBeLessThan(20_000);
  });

  it('is ended when it takes too much memory, and says so', async () => {
    // These rows need more than 48 MB; a quarter of them fit into 16 when the engine sweeps early.
    const read = await sheetsOf(workbook({ Times: rows(100_000) }), { milliseconds: 30_000, megabytes: 16 });
    expect(read).toEqual({ problem: expect.stringContaining('could not be read within 16 MB of memory') as string });
  });

  it('that is none, is too large or reaches too far is refused with what to do', async () => {
    const torn = await sheetsOf(Buffer.from('PK\u0003\u0004 but no more'));
    expect(torn).toEqual({ problem: expect.stringContaining('not a workbook that can be read') as string });
    const large = await sheetsOf(new Uint8Array(10 * 1024 * 1024 + 1));
    expect(large).toEqual({ problem: expect.stringContaining('larger than 10 MB') as string });
  });
});
