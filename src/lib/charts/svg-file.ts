import { WIDE } from './drawn';
import { wrapText } from './text-fit';

/**
 * The colours of paper and ink in a file that stands alone: it has no style sheet to ask, and will be printed.
 * The light theme of `ui/tokens.css`; a test compares the two.
 */
export const FILE_INK: Readonly<Record<string, string>> = {
  paper: '#fbfaf6',
  ink: '#1a1a1c',
  'ink-soft': '#56544e',
  rule: '#dad6ca',
  'rule-strong': '#86827a',
  accent: '#27409a',
  'accent-paper': '#e3e7f4',
  plain: 'sans-serif',
};

const SIZE = { title: 17, reading: 13 } as const;
const MARGIN = 16;

/**
 * A drawing as a file of its own, from what the server rendered of its component: the wide one, with its title and
 * reading above it and its key below, since in a file nothing else says what it shows.
 * @param html of a chart component
 * @returns `null` where no drawing was made
 */
export function svgFile(html: string, words: { title: string; reading: string; key: string }): string | null {
  const opened = /<svg[^>]*data-drawing="wide"[^>]*>/.exec(html);
  const size = opened && /viewBox="0 0 ([\d.]+) ([\d.]+)"/.exec(opened[0]);
  if (!opened || !size) return null;
  const from = opened.index + opened[0].length;
  const marks = html.slice(from, html.indexOf('</svg>', from));
  const [width, height] = [Number(size[1]), Number(size[2])];

  const title = wrapText(words.title, WIDE, SIZE.title, true);
  const reading = wrapText(words.reading, WIDE, SIZE.reading);
  const key = wrapText(words.key, WIDE, SIZE.reading);
  const above = MARGIN + title.length * (SIZE.title + 5) + reading.length * (SIZE.reading + 4) + 10;
  const below = key.length * (SIZE.reading + 4) + MARGIN;
  const lines = [
    ...title.map((text, line) => textAt(text, -above + MARGIN + (line + 1) * (SIZE.title + 5) - 6, SIZE.title, true)),
    ...reading.map((text, line) =>
      textAt(text, -10 - (reading.length - 1 - line) * (SIZE.reading + 4) - 4, SIZE.reading),
    ),
    ...key.map((text, line) => textAt(text, height + (line + 1) * (SIZE.reading + 4), SIZE.reading)),
  ];
  const box = [-MARGIN, -above, width + 2 * MARGIN, height + above + below] as const;
  return [
    `<svg xmlns="http://www.w3.org/2000/svg" viewBox="${box.join(' ')}" width="${box[2]}" height="${box[3]}" font-family="var(--plain)" fill="none" stroke-linejoin="round">`,
    `<title>${escaped(words.title)}</title>`,
    `<rect x="${box[0]}" y="${box[1]}" width="${box[2]}" height="${box[3]}" fill="var(--paper)"/>`,
    ...lines,
    onPaper(marks),
    '</svg>\n',
  ]
    .join('\n')
    .replace(/var\(--([a-z-]+)\)/g, (_, name: string) => FILE_INK[name] ?? 'none');
}

/** Links lead nowhere in a file; comments and classes are the renderer's own. */
const onPaper = (marks: string) =>
  marks
    .replace(/<!--[\s\S]*?-->/g, '')
    .replace(/<\/?a\b[^>]*>/g, '')
    .replace(/ (?:class|text-decoration)="[^"]*"/g, '');

const textAt = (text: string, y: number, size: number, bold = false) =>
  `<text x="0" y="${y}" font-size="${size}"${bold ? ' font-weight="700"' : ''} fill="var(--${bold ? 'ink' : 'ink-soft'})">${escaped(text)}</text>`;

const escaped = (text: string) => text.replace(/&/g, '&amp;').replace(/</g, '&lt;').replace(/>/g, '&gt;');
