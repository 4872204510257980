import type { Case } from '../../../src/lib/model';
import { randomStream } from '../../../src/lib/statistics';
import { case_, fact, length, listRecord, procedure, step } from '../../made-up/cases';

const ids = ['incision', 'capsulorhexis', 'hydrodissection', 'nucleus', 'cortex', 'lens'];

export const withPupils = procedure(
  ids.map((id) => step(id)),
  [fact('small-pupil', 'yes-no')],
);

export const twelveLists = Array.from({ length: 12 }, (_, at) => listRecord(at + 1));

/**
 * 48 cases over 12 lists, whole seconds; 17 of them have a small pupil, in which the capsulorhexis takes `times` as
 * long. `everywhere`: so do all other steps.
 */
export function smallPupils(times = 2.5, { seed = 1, everywhere = false } = {}): Case[] {
  const stream = randomStream(seed, 17);
  return Array.from({ length: 48 }, (_, at) => {
    const small = (at * 17) % 48 < 17;
    const shared = 0.1 * stream.normal();
    const seconds = (id: string) =>
      Math.round(
        75 * Math.exp(shared + 0.15 * stream.normal()) * (small && (everywhere || id === 'capsulorhexis') ? times : 1),
      );
    return case_(
      at + 1,
      ids.map((id) => length(id, seconds(id))),
      { listId: `list-${Math.floor(at / 4) + 1}`, facts: { 'small-pupil': small }, events: [] },
    );
  });
}
