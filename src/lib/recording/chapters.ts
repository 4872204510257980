import type { Edit, RowKind } from './edit';
import type { Marks } from './marks';
import { cuesOf, isWebvtt, writeWebvtt } from './webvtt';

/** Names that chapters are written with and read by. */
export type ChapterNames = {
  steps: readonly { id: string; label: string; synonyms: readonly string[] }[];
};

const BETWEEN = '–';
const KINDS: readonly RowKind[] = ['step', 'waiting', 'protected'];

/** The marks so far as WebVTT chapters, a cue an interval; one that still runs is not in it. No code, no date. */
export function chaptersOf({ rows }: Marks, { steps }: ChapterNames): string {
  const cues = rows.flatMap(({ kind, stepId, reason, from, to }) => {
    const step = stepId === null ? BETWEEN : (steps.find(({ id }) => id === stepId)?.label ?? stepId);
    const text = kind === 'step' ? step : [step, kind, ...(reason === null ? [] : [reason])].join(' · ');
    return to === null ? [] : [{ start: from, end: to, text }];
  });
  return writeWebvtt(cues.sort((a, b) => a.start - b.start || a.end - b.end));
}

/**
 * Chapters as edits, in the order of the file; cues whose step has no such name here, or that end before they start, are
 * named and not taken. `null`: no WebVTT file, or none with chapters.
 */
export function editsFromChapters(
  text: string,
  { steps }: ChapterNames,
): { edits: Edit[]; refused: { row: number; text: string }[] } | null {
  const cues = isWebvtt(text.replace(/^\uFEFF/, '')) ? cuesOf(text) : [];
  if (cues.length === 0) return null;
  const plain = (name: string) =>
    name
      .toLowerCase()
      .replace(/[^\p{L}\p{N}]+/gu, ' ')
      .trim();
  const known = new Map<string, string>();
  // A name that two steps share tells neither apart: it is not taken.
  const shared = new Set<string>();
  for (const { id, label, synonyms } of steps)
    for (const name of [id, label, ...synonyms].map(plain)) {
      if (known.has(name) && known.get(name) !== id) shared.add(name);
      known.set(name, known.get(name) ?? id);
    }
  for (const { id, label } of steps) for (const name of [id, label].map(plain)) known.set(name, id);
  const own = new Set(steps.flatMap(({ id, label }) => [plain(id), plain(label)]));

  const edits: Edit[] = [];
  const refused: { row: number; text: string }[] = [];
  for (const { row, start, end, text: words } of cues) {
    const [name = '', as = 'step', reason = null] = words.split(' · ');
    const kind = KINDS.find((each) => each === as);
    const stepId = name === BETWEEN ? null : (known.get(plain(name)) ?? null);
    const unclear = shared.has(plain(name)) && !own.has(plain(name));
    if (!kind || end <= start || unclear || (stepId === null && (name !== BETWEEN || kind !== 'waiting')))
      refused.push({ row, text: words });
    else edits.push({ do: 'typed', kind, stepId, reason, from: start, to: end });
  }
  return { edits, refused };
}
