import type { Procedure } from '../../model';
import { fitProblem } from '../../rules/fits';
import { ContentError } from './content-error';
import { citedIn, each, refuseDurationsIn, type FieldText } from './field-texts';
import type { GuidanceHead } from './guidance-schema';
import { withoutMarks } from './source-marks';

/** What may appear on the note for the list. */
const noteFields = (page: GuidanceHead): FieldText[] => [
  ['aim', page.aim],
  ...each('protectedParts', page.protectedParts),
  ...page.checkpoints.flatMap(({ look, why }, index): FieldText[] => [
    [`checkpoints.${index}.look`, look],
    [`checkpoints.${index}.why`, why],
  ]),
  ...each('reminders', page.reminders),
  ...each('stop', page.stop),
];

const drillFields = ({ drills }: GuidanceHead): FieldText[] =>
  drills.flatMap((drill, index): FieldText[] => [
    [`drills.${index}.do`, drill.do],
    [`drills.${index}.passed`, drill.passed],
  ]);

/** No time may reach the theatre by way of the note. @throws ContentError naming file and field. */
export const refuseDurations = (page: GuidanceHead, file: string): void => refuseDurationsIn(noteFields(page), file);

/** Facts, events and protected parts that the procedure does not have. @throws ContentError naming file and field. */
export function refuseUnknownFits(page: GuidanceHead, procedure: Procedure, file: string): void {
  const lists = [
    ...page.checkpoints.map(({ fits }, index) => [`checkpoints.${index}.fits`, fits] as const),
    ...page.checkpoints.map(({ notFor }, index) => [`checkpoints.${index}.notFor`, notFor] as const),
    ...page.drills.map(({ fits }, index) => [`drills.${index}.fits`, fits] as const),
  ];
  for (const [field, fits] of lists)
    fits.forEach((fit, index) => {
      const problem = fitProblem(fit, procedure, page.step);
      if (problem) throw new ContentError(file, `${field}.${index}`, problem);
    });
}

/** Texts with their marks, every mark with its source. @throws ContentError naming file and field. */
export const markedTexts = (page: GuidanceHead, body: string, file: string): Record<string, string> =>
  citedIn([...noteFields(page), ...drillFields(page)], body, page.sources, file);

/** The page's texts without their source marks: what notes, plans and goals print. */
export const plainTexts = (page: GuidanceHead): GuidanceHead => ({
  ...page,
  aim: withoutMarks(page.aim),
  protectedParts: page.protectedParts.map(withoutMarks),
  checkpoints: page.checkpoints.map((each) => ({
    ...each,
    look: withoutMarks(each.look),
    why: withoutMarks(each.why),
  })),
  reminders: page.reminders.map(withoutMarks),
  stop: page.stop.map(withoutMarks),
  drills: page.drills.map((drill) => ({ ...drill, do: withoutMarks(drill.do), passed: withoutMarks(drill.passed) })),
});
