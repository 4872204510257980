import { counted, inSentence } from '../format';

/** Codes in a line; of many the first, so that a line stays one. */
export function codesWords(codes: readonly string[], most = 6): string {
  const more = codes.length - most;
  return more > 0 ? `${codes.slice(0, most).join(', ')} and ${more} more` : codes.join(', ');
}

export const reviewCases = (codes: readonly string[]): string => `Review ${codesWords(codes)}`;

export const answerEvents = (codes: readonly string[]): string => `Answer events for ${codesWords(codes)}`;

/**
 * @param missing facts by their labels, a case each
 * @param before cases of earlier lists in which a fact is missing too
 */
export const completeFacts = (missing: readonly { code: string; facts: readonly string[] }[], before = 0): string =>
  `Complete the facts of the eye: ${codesWords(missing.map(({ code, facts }) => `${code} (${facts.map(inSentence).join(', ')})`))}${before > 0 ? `; then in ${counted(before, 'case')} of earlier lists` : ''}`;

export const GO_ON_WITH_NOTE = 'Go on with the note you began';

export const goOnTiming = (code: string): string => `Go on timing ${code}`;

export const reviewEvent = (kind: string, of: string): string => `Review the event: ${kind}, ${of}`;
