import { describe, expect, it } from 'vitest';
import { loadMethodPages, renderMarkdown } from '../../../src/lib/server/content';
import { HOW_MADE } from '../../../src/lib/ui/how-made';

const pages = loadMethodPages();

describe('how each number is made', () => {
  it('has words for a link to every page, and no link without a page', () => {
    expect(Object.keys(HOW_MADE).sort()).toEqual(pages.map(({ id }) => id).sort());
  });

  it('calls no two pages the same', () => {
    const words = Object.values(HOW_MADE);
    expect(new Set(words).size).toBe(words.length);
    expect(new Set(pages.map(({ title }) => title)).size).toBe(pages.length);
  });

  it.each(pages.map(({ id, body }) => [id, body] as const))(
    '%s begins in plain words, and says how it is made and what it cannot tell',
    (id, body) => {
      expect(body.trimStart().startsWith('**How')).toBe(false);
      expect(body).toMatch(/\*\*How\b/);
      expect(body).toMatch(/\bcannot\b/);
      expect(renderMarkdown(body)).toContain('<p>');
    },
  );
});
