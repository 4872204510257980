import { z } from 'zod';
import { slug, type Procedure } from '../../model';
import { ContentError } from './content-error';
import { line, sourceSchema } from './guidance-schema';
import { withoutMarks } from './source-marks';

/** Fields of the head that eye cards and rehearsals share. */
export const cardBase = {
  id: slug,
  title: line,
  procedures: z.array(slug).min(1),
  sources: z.array(sourceSchema).min(1),
  reviewed: line.nullable(),
};

type Named = { id: string; procedures: readonly string[] };

/**
 * The procedures a card is written for.
 * @throws ContentError for a file not named after its card, or an unknown procedure.
 */
export function proceduresOfCard(card: Named, procedures: readonly Procedure[], file: string): Procedure[] {
  const named = /\/\d\d-([a-z0-9-]+)\.md$/.exec(file)?.[1];
  if (named === undefined) throw new ContentError(file, 'path', 'expected NN-<id>.md');
  if (card.id !== named) throw new ContentError(file, 'id', `the file is named after "${named}"`);
  return card.procedures.map((id, index) => {
    const found = procedures.find((procedure) => procedure.id === id);
    if (!found) throw new ContentError(file, `procedures.${index}`, `no procedure "${id}"`);
    return found;
  });
}

/** @throws ContentError naming the second file of an id that stands in two. */
export function refuseRepeatedIds(idsByFile: ReadonlyMap<string, readonly string[]>): void {
  const owner = new Map<string, string>();
  for (const [file, ids] of idsByFile)
    for (const id of ids) {
      const first = owner.get(id);
      if (first) throw new ContentError(file, 'id', `"${id}" already stands in ${first}`);
      owner.set(id, file);
    }
}

export const plainLines = (texts: readonly string[]): string[] => texts.map(withoutMarks);
