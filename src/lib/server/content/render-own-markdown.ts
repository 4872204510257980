import sanitizeHtml from 'sanitize-html';
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
 * Markdown a person wrote (reflections, own checkpoints) as safe HTML: our renderer first, a strict allow-list as second
 * layer, so that one mistake in either is not enough. `#` becomes h4: a note lies deep in a page.
 */
export const renderOwnMarkdown = (text: string): string => sanitizeHtml(render(text), ALLOWED);
