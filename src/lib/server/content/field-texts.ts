import { durationIn } from '../../words';
import { ContentError } from './content-error';
import { marksIn, withoutMarks } from './source-marks';

/** A text of a page with the path of its field, as an error names it. */
export type FieldText = readonly [field: string, text: string];

export const each = (field: string, texts: readonly string[]): FieldText[] =>
  texts.map((text, index) => [`${field}.${index}`, text]);

/** @throws ContentError naming file and field: a duration in one of the texts. */
export function refuseDurationsIn(fields: readonly FieldText[], file: string): void {
  for (const [field, text] of fields) {
    const found = durationIn(withoutMarks(text));
    if (found) throw new ContentError(file, field, `"${found}" is a duration, and this text can stand on the note`);
  }
}

/**
 * Every mark has its source and every source its sentence; texts are handed on without marks, and once more with them.
 * @throws ContentError naming file and field.
 */
export function citedIn(
  fields: readonly FieldText[],
  body: string,
  sources: readonly { mark: string }[],
  file: string,
): Record<string, string> {
  const known = new Set(['c', ...sources.map(({ mark }) => mark)]);
  const used = new Set<string>();
  const marked: Record<string, string> = {};
  for (const [field, text] of [...fields, ['body', body] as const]) {
    const marks = marksIn(text);
    for (const mark of marks) {
      if (!known.has(mark)) throw new ContentError(file, field, `no source has the mark "${mark}"`);
      used.add(mark);
    }
    if (marks.length > 0 && field !== 'body') marked[withoutMarks(text)] = text;
  }
  sources.forEach(({ mark }, index) => {
    if (mark !== 'c' && !used.has(mark))
      throw new ContentError(file, `sources.${index}`, `no sentence cites "${mark}"`);
  });
  return marked;
}
