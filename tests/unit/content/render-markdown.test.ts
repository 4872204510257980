import { describe, expect, it } from 'vitest';
import { renderLine, renderShortRead } from '../../../src/lib/server/content/render-guidance';
import { renderMarkdown } from '../../../src/lib/server/content/render-markdown';
import { renderOwnMarkdown } from '../../../src/lib/server/content/render-own-markdown';
import { safeLink } from '../../../src/lib/server/content/safe-link';

/** Markdown written to break out. Each must come out as words, not as markup that runs or loads anything. */
const HOSTILE: Record<string, string> = {
  'script block': '<script>alert(1)</script>',
  'script after text': 'seen\n\n<script src="https://evil.example/x.js"></script>',
  'inline handler': 'a <img src=x onerror=alert(1)> b',
  'svg handler': '<svg/onload=alert(1)>',
  'raw text block': 'a <pre><img src=x onerror=alert(1)></pre> b',
  'raw text inside kbd': '<kbd>**x**</kbd><textarea><img src=x onerror=alert(1)></textarea>',
  'javascript link': '[look](javascript:alert(1))',
  'javascript link, mixed case': '[look](JaVaScRiPt:alert(1))',
  'javascript link, entity': '[look](JaVa&#x73;cript:alert(1))',
  'javascript link, tab': '[look](<java\tscript:alert(1)>)',
  'javascript link, leading control': '[look](<\u0001javascript:alert(1)>)',
  'javascript autolink': '<javascript:alert(1)>',
  'javascript link by reference': '[look][1]\n\n[1]: javascript:alert(1)',
  'data link': '[look](data:text/html;base64,PHNjcmlwdD4=)',
  'vbscript link': '[look](vbscript:msgbox(1))',
  'link that leaves by two slashes': '[look](//evil.example/x)',
  'link that leaves by slash and backslash': '[look](/\\evil.example/x)',
  'link that leaves by a tab between slashes': '[look](</\t/evil.example>)',
  'attribute break-out in address': '[look](https://a.example/"onmouseover="alert(1))',
  'attribute break-out in title': '[look](https://a.example "x\\" onmouseover=\\"alert(1)")',
  'attribute break-out in image text': '![x" onerror="alert(1)](https://a.example/p.png)',
  image: '![x](https://evil.example/seen.png)',
  'code fence language': '```"><script>alert(1)</script>\nx\n```',
  'inline code': '`<script>alert(1)</script>`',
  'heading with markup': '# <iframe src=https://evil.example></iframe>',
  'table cell': '| a |\n|:-:|\n| <b onclick=alert(1)>x</b> |',
  'style tag': '<style>@import url(https://evil.example)</style>',
  form: '<form action=https://evil.example><input name=p></form>',
  'unclosed comment': '<!-- <script>alert(1)</script>',
  'closing tags': '</main></body></html>',
};

const TAGS = /<(\/?)([a-z][a-z0-9]*)((?:\s[^<>]*)?)>/gi;
const PLAIN = /^(p|br|hr|strong|em|del|code|pre|blockquote|ul|ol|li|a|h[2-6]|table|thead|tbody|tr|th|td)$/;
const ATTRIBUTES = /^(?:\s(?:href="[^"]*"|rel="noreferrer noopener"|start="\d+"))*(?:\s\/)?$/;

/** Every `<` belongs to a plain tag with known attributes, and every address is one that `safeLink` allows once decoded. */
function expectInert(html: string): void {
  const rest = html.replace(TAGS, (_, _close: string, name: string, attributes: string) => {
    expect(name).toMatch(PLAIN);
    expect(attributes).toMatch(ATTRIBUTES);
    return '';
  });
  expect(rest).not.toContain('<');
  for (const [, href = ''] of html.matchAll(/href="([^"]*)"/g)) {
    const decoded = href
      .replace(/&quot;/g, '"')
      .replace(/&#39;/g, "'")
      .replace(/&amp;/g, '&');
    expect(safeLink(decoded)).toBe(decoded);
  }
}

describe.each(Object.entries(HOSTILE))('hostile Markdown: %s', (_, text) => {
  it('is inert from the renderer alone', () => expectInert(renderMarkdown(text)));
  it('is inert from both layers', () => expectInert(renderOwnMarkdown(text)));
});

describe('renderMarkdown', () => {
  it('prints raw HTML as words', () => {
    expect(renderMarkdown('a <b>c</b>')).toBe('<p>a &lt;b&gt;c&lt;/b&gt;</p>\n');
  });

  it('keeps web, mail and in-app links, with & escaped in the address', () => {
    expect(renderMarkdown('[a](https://a.example/?b=1&c=2)')).toBe(
      '<p><a href="https://a.example/?b=1&amp;c=2" rel="noreferrer noopener">a</a></p>\n',
    );
    expect(renderMarkdown('[a](/checkpoints/phaco)')).toBe('<p><a href="/checkpoints/phaco">a</a></p>\n');
    expect(renderMarkdown('[a](mailto:a@b.example)')).toContain('href="mailto:a@b.example"');
  });

  it('drops a refused link but keeps its words', () => {
    expect(renderMarkdown('[look](javascript:alert(1)) here')).toBe('<p>look here</p>\n');
  });

  it('puts the words of an image in its place', () => {
    expect(renderMarkdown('![a graph](https://a.example/x.png)')).toBe('<p>a graph</p>\n');
  });

  it('begins headings below the heading of the room', () => {
    expect(renderMarkdown('# A\n\n## B')).toBe('<h2>A</h2>\n<h3>B</h3>\n');
    expect(renderOwnMarkdown('# A')).toBe('<h4>A</h4>\n');
  });

  it('renders the plain things people write', () => {
    expect(renderOwnMarkdown('**a** *b*\n\n1. c\n2. d\n\n> e')).toBe(
      '<p><strong>a</strong> <em>b</em></p>\n<ol>\n<li>c</li>\n<li>d</li>\n</ol>\n<blockquote>\n<p>e</p>\n</blockquote>\n',
    );
  });

  it('shows the words of text that overflows the parser', () => {
    const html = renderMarkdown('>'.repeat(20_000) + ' x');
    expectInert(html);
    expect(html).toContain('x');
  });

  it('has the same answer for the same text, whatever came before', () => {
    const first = renderMarkdown('[a][1] *b*');
    renderMarkdown('[1]: https://a.example');
    expect(renderMarkdown('[a][1] *b*')).toBe(first);
  });
});

describe('source marks', () => {
  it('become links to the list of sources, inside their sentence', () => {
    expect(renderShortRead('Of 20 eyes, 2 leaked [p1] [m1].')).toBe(
      '<p>Of 20 eyes, 2 leaked<sup class="mark"><a href="#source-p1" aria-label="source p1">p1</a></sup><sup class="mark"><a href="#source-m1" aria-label="source m1">m1</a></sup>.</p>\n',
    );
  });

  it('stand on a line that has them, and a line is never run as markup', () => {
    expect(renderLine('6 mm <b>.', { '6 mm <b>.': '6 mm <b> [c].' })).toBe(
      '6 mm &lt;b&gt;<sup class="mark"><a href="#source-c" aria-label="source c">c</a></sup>.',
    );
    expect(renderLine('constructor', {})).toBe('constructor');
  });

  it.each([
    ['long', `**a** ${'word '.repeat(4_000)}`],
    ['full of emphasis', '*a_'.repeat(300)],
    ['nested', `${'> '.repeat(50)}**a**`],
    ['nested lists', `${'1. '.repeat(50)}**a**`],
  ])('shows a note too heavy to parse as it was written: %s', (_, text) => {
    const html = renderOwnMarkdown(text);
    expect(html).toBe(`<p>${text.replaceAll('>', '&gt;')}</p>\n`);
  });
});

describe('formulas', () => {
  it('set low and high letters small, within code alone, and run nothing', () => {
    expect(renderMarkdown('`xᵢ₋₁ + C^+ᵢ·D^½ < 0.05^(1/n)` and xᵢ, 2^3')).toBe(
      '<p><code>x<sub>i−1</sub> + C<sup>+</sup><sub>i</sub>·D<sup>½</sup> &lt; 0.05<sup>1/n</sup></code> and xᵢ, 2^3</p>\n',
    );
    expect(renderMarkdown('`a^(<script>)`')).toBe('<p><code>a<sup>&lt;script&gt;</sup></code></p>\n');
  });

  it("a person's own text keeps every sign", () => {
    expect(renderOwnMarkdown('`xᵢ^2`')).toContain('xᵢ^2');
  });
});
