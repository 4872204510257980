import type { Procedure } from '../../model';
import type { Guidance } from '../../rules/types';
import { checked, ContentError } from './content-error';
import type { ContentFiles } from './content-files';
import { splitFrontMatter } from './front-matter';
import { markedTexts, plainTexts, refuseDurations, refuseUnknownFits } from './guidance-checks';
import { guidanceHeadSchema } from './guidance-schema';

/** `content/checkpoints/<procedure>/NN-<step>.md`; NN orders the folder for a reader and means nothing else. */
const PATH = /^content\/checkpoints\/([a-z0-9-]+)\/\d\d-([a-z0-9-]+)\.md$/;

/** One page; everything it names is checked against the procedure it belongs to. */
function readPage(file: string, text: string, procedures: readonly Procedure[]): Guidance {
  const [, procedureId, named] = PATH.exec(file) ?? [];
  if (!procedureId || !named)
    throw new ContentError(file, 'path', 'expected content/checkpoints/<procedure>/NN-<step>.md');
  const procedure = procedures.find(({ id }) => id === procedureId);
  if (!procedure) throw new ContentError(file, 'path', `no procedure "${procedureId}"`);

  const { head, body } = splitFrontMatter(text, file);
  const page = checked(guidanceHeadSchema, head, file);
  const known = new Set(procedure.steps.map(({ id }) => id));
  if (!known.has(page.step)) throw new ContentError(file, 'step', `no step "${page.step}" in ${procedureId}`);
  if (page.step !== named) throw new ContentError(file, 'step', `the file is named after "${named}"`);
  for (const id of page.earlier)
    if (!known.has(id) || id === page.step)
      throw new ContentError(file, 'earlier', `no earlier step "${id}" in ${procedureId}`);
  if (body === '') throw new ContentError(file, 'body', 'the short read is missing');
  refuseUnknownFits(page, procedure, file);
  refuseDurations(page, file);
  return { procedureId, ...plainTexts(page), marked: markedTexts(page, body, file), body };
}

/** A goal and its answers name a checkpoint by id alone, so an id may stand once in the whole library. */
function refuseRepeats(pages: ReadonlyMap<string, Guidance>): void {
  const owner = new Map<string, string>();
  for (const [file, page] of pages)
    for (const id of [
      `${page.procedureId}/${page.step}`,
      ...page.checkpoints.map((c) => c.id),
      ...page.drills.map((d) => d.id),
    ]) {
      const first = owner.get(id);
      if (first) throw new ContentError(file, 'id', `"${id}" already stands in ${first}`);
      owner.set(id, file);
    }
}

/**
 * The written guidance, a page a step, in order of file name.
 * @throws ContentError naming file and field: schema; unknown procedure, step, fact, event or protected part;
 * a source mark without a source or a source without a sentence; a duration on the note; an id used twice.
 */
export function readGuidance(files: ContentFiles, procedures: readonly Procedure[]): Guidance[] {
  const pages = new Map(Object.entries(files).map(([file, text]) => [file, readPage(file, text, procedures)]));
  refuseRepeats(pages);
  return [...pages.values()];
}
