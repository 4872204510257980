import sanitizeHtml from 'sanitize-html';
import { escapeHtml } from './escape-html';
import { markdownRenderer } from './render-markdown';

/** What a note may hold. Everything else is dropped, tag by tag; the words stay. */
const ALLOWED = {
  allowedTags: [
    'p',
    'br',
    'hr',
    'strong',
    'em',
    'del',
    'code',
    'pre',
    'blockquote',
    'ul',
    'ol',
    'li',
    'a',
    'h4',
    'h5',
    'h6',
    'table',
    'thead',
    'tbody',
    'tr',
    'th',
    'td',
  ],
  allowedAttributes: { a: ['href', 'rel'], ol: ['start'] },
  allowedSchemes: ['http', 'https', 'mailto'],
  allowedSchemesAppliedToAttributes: ['href'],
  allowProtocolRelative: false,
  disallowedTagsMode: 'discard',
  enforceHtmlBoundary: false,
} satisfies sanitizeHtml.IOptions;

const render = markdownRenderer(4);

/**
 * The parser's time grows with the square or the cube of these: 300,000 letters of `_a_` took 18 seconds, 10,000 of
 * `*a_` no less. A note as long as four pages, with 500 signs of emphasis, takes some milliseconds.
 */
const MOST = { letters: 20_000, emphasis: 500 };
/** Quotes and lists one inside the other, deeper than anybody writes. */
const DEEP = /^(?:[ \t>]|[-+*] |\d{1,9}[.)] ){40}/m;

const isHeavy = (text: string): boolean =>
  text.length > MOST.letters || (text.match(/[*_~]/g) ?? []).length > MOST.emphasis || DEEP.test(text);

/**
 * Markdown a person wrote (reflections, own checkpoints) as safe HTML: our renderer first, a strict allow-list as second
 * layer, so that one mistake in either is not enough. `#` becomes h4: a note lies deep in a page. A text above the
 * limits is shown as it was written.
 */
export const renderOwnMarkdown = (text: string): string =>
  sanitizeHtml(isHeavy(text) ? `<p>${escapeHtml(text)}</p>\n` : render(text), ALLOWED);
