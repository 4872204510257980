import { z } from 'zod';
import { slug } from '../../model';
import { checked, ContentError } from './content-error';
import type { ContentFiles } from './content-files';
import { splitFrontMatter } from './front-matter';

const headSchema = z.strictObject({ id: slug, title: z.string().trim().min(1) });

/** How one number is made, with its sources. The body is Markdown. */
export type MethodPage = { id: string; title: string; body: string };

/**
 * Method pages in order of file name.
 * @throws ContentError for a head the schema refuses, an empty body, or an id used twice.
 */
export function readMethodPages(files: ContentFiles): MethodPage[] {
  const seen = new Set<string>();
  return Object.entries(files).map(([file, text]) => {
    const { head, body } = splitFrontMatter(text, file);
    const { id, title } = checked(headSchema, head, file);
    if (body === '') throw new ContentError(file, 'body', 'the text is missing');
    if (seen.has(id)) throw new ContentError(file, 'id', `"${id}" stands in two files`);
    seen.add(id);
    return { id, title, body };
  });
}
