import { everythingSchema } from './storage/everything-schema';
import type { Everything } from './storage/port';

/** The invented surgeons to look round with, with a line on what each is for. */
export const INVENTED = [
  {
    id: 'fellow',
    name: 'The fellow',
    words: 'in training, about 170 cases over nine months, one goal done and one half-way',
  },
  { id: 'consultant', name: 'The consultant', words: '600 cases without dates, events never asked' },
  { id: 'camp', name: 'The camp', words: 'small-incision, three days, 110 operated, 18 timed' },
] as const;

export type InventedId = (typeof INVENTED)[number]['id'];

export const isInvented = (text: string): text is InventedId => INVENTED.some(({ id }) => id === text);

// Not eager: together they are larger than everything else, and most starts never need them.
const files = import.meta.glob<unknown>('/demo-data/*.json', { import: 'default' });

/** One invented surgeon's whole record, checked as anything that comes in. @throws Error where its file is missing */
export async function inventedRecord(id: InventedId): Promise<Everything> {
  const file = files[`/demo-data/${id}.json`];
  if (!file) throw new Error(`demo-data/${id}.json is missing: npm run demo makes it.`);
  return everythingSchema.parse(await file());
}
