import { z } from 'zod';
import { slug, type Procedure } from '../../model';
import type { Rehearsal } from '../../rules/cards';
import { fitProblem } from '../../rules/fits';
import { cardBase, plainLines, proceduresOfCard, refuseRepeatedIds } from './card-base';
import { checked, ContentError } from './content-error';
import type { ContentFiles } from './content-files';
import { citedIn, each, refuseDurationsIn, type FieldText } from './field-texts';
import { splitFrontMatter } from './front-matter';
import { line } from './guidance-schema';
import { withoutMarks } from './source-marks';

/** Head of `content/rehearsals/NN-<id>.md`. Strict: a misspelt field is a lost field. */
const headSchema = z.strictObject({
  ...cardBase,
  events: z.array(slug).min(1),
  first: z.array(line).min(1),
  // Three: as many as can be said aloud in one breath, in order.
  actions: z.array(line).length(3),
  never: z.array(line).min(1),
  call: line,
  open: z.array(line).min(1),
});

type Head = z.infer<typeof headSchema>;

const fieldsOf = (head: Head): FieldText[] => [
  ...each('first', head.first),
  ...each('actions', head.actions),
  ...each('never', head.never),
  ['call', head.call],
  ...each('open', head.open),
];

function readRehearsal(file: string, text: string, procedures: readonly Procedure[]): Rehearsal {
  const { head: data, body } = splitFrontMatter(text, file);
  const head = checked(headSchema, data, file);
  const written = proceduresOfCard(head, procedures, file);
  head.events.forEach((id, index) => {
    const problems = written.map((procedure) => fitProblem(`event:${id}`, procedure, ''));
    if (problems.every((problem) => problem !== null))
      throw new ContentError(file, `events.${index}`, problems[0] ?? 'unknown');
  });
  if (body === '') throw new ContentError(file, 'body', 'the short read is missing');
  const fields = fieldsOf(head);
  refuseDurationsIn([['title', head.title], ...fields, ['body', body]], file);
  return {
    ...head,
    first: plainLines(head.first),
    actions: plainLines(head.actions),
    never: plainLines(head.never),
    call: withoutMarks(head.call),
    open: plainLines(head.open),
    marked: citedIn(fields, body, head.sources, file),
    body,
  };
}

/**
 * The rehearsals in order of file name.
 * @throws ContentError naming file and field: schema; unknown procedure or event; a duration; a mark without a source;
 * an id used twice.
 */
export function readRehearsals(files: ContentFiles, procedures: readonly Procedure[]): Rehearsal[] {
  const read = new Map(Object.entries(files).map(([file, text]) => [file, readRehearsal(file, text, procedures)]));
  refuseRepeatedIds(new Map([...read].map(([file, { id }]) => [file, [id]])));
  return [...read.values()];
}
