import type { Page } from 'playwright/test';

/** The page as it would be printed: how many sides, and how large the first one is in millimetres. */
export async function printed(page: Page): Promise<{ sides: number; width: number; height: number }> {
  const file = (await page.pdf({ preferCSSPageSize: true })).toString('latin1');
  const box = /\/MediaBox ?\[0 0 ([\d.]+) ([\d.]+)\]/.exec(file);
  const millimetres = (points: string | undefined) => Math.round((Number(points) / 72) * 25.4);
  return {
    sides: file.match(/\/Type ?\/Page\b/g)?.length ?? 0,
    width: millimetres(box?.[1]),
    height: millimetres(box?.[2]),
  };
}
