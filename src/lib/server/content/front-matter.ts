import { parse } from 'yaml';
import { ContentError } from './content-error';

/** Anchored to the first byte: a `---` further down is a rule in the text, not the head of the file. */
const HEAD = /^---\r?\n([\s\S]*?)\r?\n---(?:\r?\n|$)([\s\S]*)$/;

/**
 * YAML with the file's name in the error. Duplicate keys and anchors gone wild are refused by the parser itself.
 * @throws ContentError when the YAML cannot be parsed.
 */
export function parseYaml(text: string, file: string): unknown {
  try {
    return parse(text, { maxAliasCount: 0 });
  } catch (error) {
    throw new ContentError(file, 'YAML', error instanceof Error ? error.message : 'cannot be parsed');
  }
}

/**
 * A Markdown file with a YAML head, as `{ head, body }`; the body trimmed.
 * @throws ContentError when there is no head or it is not YAML.
 */
export function splitFrontMatter(text: string, file: string): { head: unknown; body: string } {
  const match = HEAD.exec(text.replace(/^\uFEFF/, ''));
  if (!match) throw new ContentError(file, 'head', 'the file must begin with a YAML head between two lines of ---');
  return { head: parseYaml(match[1] ?? '', file), body: (match[2] ?? '').trim() };
}
