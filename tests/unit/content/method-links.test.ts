import { describe, expect, it } from 'vitest';
import { loadMethodPages, renderMarkdown } from '../../../src/lib/server/content';
import { HOW_MADE } from '../../../src/lib/ui/how-made';

const all = loadMethodPages();
/** The page of changes belongs to no number: the room that lists the pages leads to it, and nothing else. */
const pages = all.filter(({ id }) => id !== 'changes');

describe('how each number is made', () => {
  it('has words for a link to every page, and no link without a page', () => {
    expect(Object.keys(HOW_MADE).sort()).toEqual(pages.map(({ id }) => id).sort());
  });

  it('lists the changes to shown numbers last, newest first', () => {
    expect(all.at(-1)?.id).toBe('changes');
    const days = [...(all.at(-1)?.body ?? '').matchAll(/^- \*\*(\d+ \w+ \d{4})\.\*\*/gm)].map(([, day]) =>
      Date.parse(`${day} UTC`),
    );
    expect(days.length).toBeGreaterThan(2);
    expect(days).toEqual([...new Set(days)].sort((a, b) => b - a));
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
