import type { Page } from 'playwright/test';
import { open } from './open';
import type { InventedId } from '../../src/lib/server/invented';

export type Surgeon = InventedId | 'empty';
export const SURGEONS: readonly Surgeon[] = ['fellow', 'consultant', 'camp', 'empty'];

/** From the empty record, by the form anybody would use. */
export async function lookRound(page: Page, surgeon: Surgeon): Promise<void> {
  if (surgeon === 'empty') return;
  // A choice made before the scripts run is set back by them to the first surgeon.
  await open(page, '/');
  await page.locator(`input[name="surgeon"][value="${surgeon}"]`).check();
  await page.getByRole('button', { name: 'Look round with an invented surgeon' }).click();
  await page.getByText('You are looking round with an invented surgeon').waitFor();
}
