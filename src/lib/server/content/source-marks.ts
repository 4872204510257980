/**
 * A mark stands at the end of its sentence, before the full stop: "… 5 to 5.5 mm wide [c]." `p1` and `m1` name a source
 * of the page (published; from memory, to be checked), `c` is common practice. A sentence without one is common practice.
 */
const MARK = /\s?\[(c|[pm]\d)\]/g;

export const withoutMarks = (text: string): string => text.replace(MARK, '');

export const marksIn = (text: string): string[] => [...text.matchAll(MARK)].map(([, mark = '']) => mark);

/** HTML whose marks become small links to the page's list of sources. */
export const linkMarks = (html: string): string =>
  html.replace(
    MARK,
    (_, mark: string) => `<sup class="mark"><a href="#source-${mark}" aria-label="source ${mark}">${mark}</a></sup>`,
  );
