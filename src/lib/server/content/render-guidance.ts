import { escapeHtml } from './escape-html';
import { renderMarkdown } from './render-markdown';
import { linkMarks } from './source-marks';

/** The short read of a page as safe HTML, its source marks linked. */
export const renderShortRead = (body: string): string => linkMarks(renderMarkdown(body));

/** One line of a page as safe HTML, with its source marks where it has any. */
export const renderLine = (text: string, marked: Readonly<Record<string, string>>): string =>
  linkMarks(escapeHtml(Object.hasOwn(marked, text) ? (marked[text] ?? text) : text));
