import { z } from 'zod';
import { slug, type Procedure } from '../../model';
import type { EyeCard } from '../../rules/cards';
import { fitProblem } from '../../rules/fits';
import type { Guidance } from '../../rules/types';
import { cardBase, plainLines, proceduresOfCard, refuseRepeatedIds } from './card-base';
import { checked, ContentError } from './content-error';
import type { ContentFiles } from './content-files';
import { citedIn, each, refuseDurationsIn, type FieldText } from './field-texts';
import { splitFrontMatter } from './front-matter';
import { eyeFit, line } from './guidance-schema';
import { withoutMarks } from './source-marks';

/** Head of `content/eyes/NN-<id>.md`. Strict: a misspelt field is a lost field. */
const headSchema = z.strictObject({
  ...cardBase,
  eyes: z.array(eyeFit).min(1),
  ready: z.array(line).min(1),
  // Two: more could not be kept in mind beside the three of a goal.
  checkpoints: z.array(z.strictObject({ id: slug, look: line, why: line })).length(2),
  never: line,
  stop: line,
  overrides: z.array(slug),
});

type Head = z.infer<typeof headSchema>;

const fieldsOf = (head: Head): FieldText[] => [
  ...each('ready', head.ready),
  ...head.checkpoints.flatMap(({ look, why }, index): FieldText[] => [
    [`checkpoints.${index}.look`, look],
    [`checkpoints.${index}.why`, why],
  ]),
  ['never', head.never],
  ['stop', head.stop],
];

function readCard(
  file: string,
  text: string,
  procedures: readonly Procedure[],
  guidance: readonly Guidance[],
): EyeCard {
  const { head: data, body } = splitFrontMatter(text, file);
  const head = checked(headSchema, data, file);
  for (const procedure of proceduresOfCard(head, procedures, file))
    head.eyes.forEach((fit, index) => {
      const problem = fitProblem(fit, procedure, '');
      if (problem) throw new ContentError(file, `eyes.${index}`, problem);
    });
  if (body === '') throw new ContentError(file, 'body', 'the short read is missing');
  const fields = fieldsOf(head);
  refuseDurationsIn([['title', head.title], ...fields, ['body', body]], file);
  refuseContradictions(head, guidance, file);
  return {
    ...head,
    ready: plainLines(head.ready),
    checkpoints: head.checkpoints.map(({ id, look, why }) => ({
      id,
      look: withoutMarks(look),
      why: withoutMarks(why),
    })),
    never: withoutMarks(head.never),
    stop: withoutMarks(head.stop),
    marked: citedIn(fields, body, head.sources, file),
    body,
  };
}

/**
 * A checkpoint that says of itself that it is not for this eye contradicts the card, so the card must name it; and the
 * card may set aside no checkpoint that would still be given in this eye.
 */
function refuseContradictions(head: Head, guidance: readonly Guidance[], file: string): void {
  const checkpoints = guidance
    .filter(({ procedureId }) => head.procedures.includes(procedureId))
    .flatMap((page) => page.checkpoints);
  const against = checkpoints.filter(({ notFor }) => head.eyes.some((eye) => notFor.includes(eye)));
  for (const { id } of against)
    if (!head.overrides.includes(id))
      throw new ContentError(
        file,
        'overrides',
        `the checkpoint "${id}" is not for this eye, and the card must name it`,
      );
  head.overrides.forEach((id, index) => {
    if (!checkpoints.some((each) => each.id === id))
      throw new ContentError(file, `overrides.${index}`, `no checkpoint "${id}" in ${head.procedures.join(', ')}`);
    if (!against.some((each) => each.id === id))
      throw new ContentError(
        file,
        `overrides.${index}`,
        `the checkpoint "${id}" does not say that it is not for this eye`,
      );
  });
}

/**
 * The eye cards in order of file name.
 * @throws ContentError naming file and field: schema; unknown procedure, fact or checkpoint; a checkpoint contradicted
 * and not named; a duration; a mark without a source; an id used twice.
 */
export function readEyeCards(
  files: ContentFiles,
  procedures: readonly Procedure[],
  guidance: readonly Guidance[],
): EyeCard[] {
  const cards = new Map(
    Object.entries(files).map(([file, text]) => [file, readCard(file, text, procedures, guidance)]),
  );
  refuseRepeatedIds(
    new Map([
      ['content/checkpoints', guidance.flatMap((page) => page.checkpoints.map(({ id }) => id))],
      ...[...cards].map(([file, card]) => [file, card.checkpoints.map(({ id }) => id)] as const),
    ]),
  );
  refuseRepeatedIds(new Map([...cards].map(([file, { id }]) => [file, [id]])));
  return [...cards.values()];
}
