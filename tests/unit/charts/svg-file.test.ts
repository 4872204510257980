import { readFileSync } from 'node:fs';
import { describe, expect, it } from 'vitest';
import { FILE_INK, svgFile } from '../../../src/lib/charts/svg-file';

const words = { title: 'Tom & "Jerry" <3', reading: 'Latest 44 cases.', key: '○ one case' };
const page = (marks: string) =>
  `<figure><svg data-drawing="narrow" viewBox="0 0 336 90"><path/></svg>` +
  `<svg data-drawing="wide" viewBox="0 0 720 120" class="x">${marks}</svg></figure>`;

describe('a drawing as a file', () => {
  const svg = svgFile(
    page(
      '<!--[--><a href="/choose/x"><text class="svelte-1" text-decoration="underline" fill="var(--ink)">Step</text></a>',
    ),
    words,
  );

  it('is the wide drawing, with title, reading and key, and nothing that only a page understands', () => {
    expect(svg).toContain('<svg xmlns="http://www.w3.org/2000/svg"');
    expect(svg).toContain('>Step</text>');
    expect(svg).toContain('Latest 44 cases.');
    expect(svg).toContain('○ one case');
    expect(svg).not.toMatch(/var\(|class=|<a |<!--|underline|href/);
  });

  it('writes words so that they stay words', () => {
    expect(svg).toContain('Tom &amp; "Jerry" &lt;3');
  });

  it('makes room for its words above and below the drawing', () => {
    const box =
      /viewBox="(-?[\d.]+) (-?[\d.]+) ([\d.]+) ([\d.]+)"/
        .exec(svg ?? '')
        ?.slice(1)
        .map(Number) ?? [];
    const [, top = 0, width = 0, height = 0] = box;
    expect(top).toBeLessThan(-40);
    expect(width).toBeGreaterThan(720);
    expect(height + top).toBeGreaterThan(120);
  });

  it('is null where nothing was drawn', () => {
    expect(svgFile('<p>No case of this step can be drawn yet.</p>', words)).toBeNull();
  });

  it('has the ink of the light theme', () => {
    const tokens = readFileSync(new URL('../../../src/lib/ui/tokens.css', import.meta.url), 'utf8');
    const light = tokens.slice(0, tokens.indexOf('@media'));
    for (const [name, colour] of Object.entries(FILE_INK))
      if (colour.startsWith('#')) expect(light).toContain(`--${name}: ${colour};`);
  });
});
