import type { Procedure } from '../../model';
import { fitProblem } from '../../rules/fits';
import { durationIn } from '../../words';
import { ContentError } from './content-error';
import type { GuidanceHead } from './guidance-schema';
import { marksIn, withoutMarks } from './source-marks';

/** A text of the page with the path of its field, as an error names it. */
type FieldText = readonly [field: string, text: string];

const each = (field: string, texts: readonly string[]): FieldText[] =>
  texts.map((text, index) => [`${field}.${index}`, text]);

/** What can come to stand on the note for the list. */
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
export function refuseDurations(page: GuidanceHead, file: string): void {
  for (const [field, text] of noteFields(page)) {
    const found = durationIn(withoutMarks(text));
    if (found) throw new ContentError(file, field, `"${found}" is a duration, and this text can stand on the note`);
  }
}

/** Facts, events and protected parts that the procedure has not. @throws ContentError naming file and field. */
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

/**
 * Every mark has its source and every source its sentence; texts are handed on without marks, and once more with them.
 * @throws ContentError naming file and field.
 */
export function markedTexts(page: GuidanceHead, body: string, file: string): Record<string, string> {
  const known = new Set(['c', ...page.sources.map(({ mark }) => mark)]);
  const used = new Set<string>();
  const marked: Record<string, string> = {};
  for (const [field, text] of [...noteFields(page), ...drillFields(page), ['body', body] as const]) {
    const marks = marksIn(text);
    for (const mark of marks) {
      if (!known.has(mark)) throw new ContentError(file, field, `no source has the mark "${mark}"`);
      used.add(mark);
    }
    if (marks.length > 0 && field !== 'body') marked[withoutMarks(text)] = text;
  }
  page.sources.forEach(({ mark }, index) => {
    if (mark !== 'c' && !used.has(mark))
      throw new ContentError(file, `sources.${index}`, `no sentence cites "${mark}"`);
  });
  return marked;
}

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
