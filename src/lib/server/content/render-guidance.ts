import { escapeHtml } from './escape-html';
import { renderMarkdown } from './render-markdown';
import { linkMarks } from './source-marks';

/** The short read of a page as safe HTML, its source marks linked. `page`: path of the page that lists the sources. */
export const renderShortRead = (body: string, page = ''): string => linkMarks(renderMarkdown(body), page);

/** One line of a page as safe HTML, with its source marks where it has any. */
export const renderLine = (text: string, marked: Readonly<Record<string, string>>): string =>
  linkMarks(escapeHtml(Object.hasOwn(marked, text) ? (marked[text] ?? text) : text), '');
