import { Marked, type RendererObject } from 'marked';
import { escapeHtml } from './escape-html';
import { formulaHtml } from './formula';
import { safeLink } from './safe-link';

/** An entity an author wrote as text (`&nbsp;`) may stay: in element content it can only become a character. */
const escapeText = (text: string): string =>
  escapeHtml(text).replace(/&amp;(#\d{1,7}|#x[\da-f]{1,6}|[a-z]\w{1,30});/gi, '&$1;');

/**
 * Raw HTML is printed, not run; no images; links only where `safeLink` allows; no attributes but `href`, `rel`,
 * `start`. Headings begin at `firstHeading`, below the heading of the room they stand in.
 */
const rendererFrom = (firstHeading: number, formula: (html: string) => string): RendererObject => ({
  html({ text }) {
    return escapeHtml(text);
  },
  // Marked passes text inside raw <pre>, <kbd> or <script> through as it came; here nothing is ever raw.
  text(token) {
    return 'tokens' in token && token.tokens ? this.parser.parseInline(token.tokens) : escapeText(token.text);
  },
  heading({ tokens, depth }) {
    const rank = Math.min(depth + firstHeading - 1, 6);
    return `<h${rank}>${this.parser.parseInline(tokens)}</h${rank}>\n`;
  },
  code({ text }) {
    return `<pre><code>${escapeHtml(text)}\n</code></pre>\n`;
  },
  codespan({ text }) {
    return `<code>${formula(escapeHtml(text))}</code>`;
  },
  checkbox({ checked }) {
    return checked ? '[x] ' : '[ ] ';
  },
  image({ text }) {
    return escapeText(text);
  },
  link({ href, tokens }) {
    const words = this.parser.parseInline(tokens);
    const address = safeLink(href);
    if (address === null) return words;
    const leaves = !/^[/#]/.test(address);
    return `<a href="${escapeHtml(address)}"${leaves ? ' rel="noreferrer noopener"' : ''}>${words}</a>`;
  },
  tablecell({ tokens, header }) {
    const tag = header ? 'th' : 'td';
    return `<${tag}>${this.parser.parseInline(tokens)}</${tag}>\n`;
  },
});

/** A converter whose `#` is the given heading rank; `formula`: what is done to code within a line. */
export function markdownRenderer(
  firstHeading: number,
  formula = (html: string): string => html,
): (text: string) => string {
  const marked = new Marked({ gfm: true, breaks: false, async: false, renderer: rendererFrom(firstHeading, formula) });
  return (text) => {
    try {
      return marked.parse(text, { async: false });
    } catch {
      // Thousands of nested quotes overflow the parser's stack: show the words rather than fail the page.
      return `<p>${escapeHtml(text)}</p>\n`;
    }
  };
}

/**
 * Markdown of the project's own content as safe HTML. `#` becomes h2: the room has the h1.
 * For text people write use `renderOwnMarkdown`.
 */
export const renderMarkdown = markdownRenderer(2, formulaHtml);
