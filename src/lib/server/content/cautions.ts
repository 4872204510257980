import { z } from 'zod';
import { durationIn } from '../../words';
import { checked, ContentError } from './content-error';
import type { ContentFiles } from './content-files';
import { splitFrontMatter } from './front-matter';

/**
 * The standing texts a screen may ask for. A list in code, so that a page cannot ask for a text that is not there and a
 * text cannot be lost by renaming its file.
 */
export const CAUTION_NAMES = [
  'standing',
  'note-for-the-list',
  'general-note',
  'capsule-rupture',
  'guidance-page',
  'published-figures',
  'rehearsal',
  'mentor-review',
  'reflection',
  'event-prompts',
  'event-field',
  'keep-as-it-is',
  'codes',
  'recording-file-name',
  'sound-and-picture',
  'recording-consent',
  'reference-consent',
  'data-at-rest',
  'erase',
  'responsible',
  'supervision',
  'monitor-signal',
  'note-durations',
  'editing-history',
  'left-out',
  'waiting',
  'no-patient-data',
] as const;

export type CautionName = (typeof CAUTION_NAMES)[number];

const headSchema = z.strictObject({
  title: z.string().trim().min(1),
  /** Where it stands on the screens, for the people who write them. */
  where: z.string().trim().min(1),
  /** A list to be shown as such, where the text is one. */
  points: z.array(z.string().trim().min(1)).optional(),
});

export type Caution = {
  name: CautionName;
  title: string;
  where: string;
  points: readonly string[];
  /** Plain paragraphs in order: what a screen prints. `{}` stands for what it fills in. */
  paragraphs: readonly string[];
};

/** The texts that stand on a note for the list, or on the sheet for a mentor: no time may be in them. */
const ON_THE_NOTE: ReadonlySet<CautionName> = new Set([
  'standing',
  'note-for-the-list',
  'general-note',
  'capsule-rupture',
  'mentor-review',
]);

function refuseDurations(file: string, points: readonly string[], paragraphs: readonly string[]): void {
  const fields = [
    ...points.map((text, index) => [`points.${index}`, text] as const),
    ...paragraphs.map((text) => ['body', text] as const),
  ];
  for (const [field, text] of fields) {
    const found = durationIn(text);
    if (found) throw new ContentError(file, field, `"${found}" is a duration, and this text stands on the note`);
  }
}

const isName = (name: string): name is CautionName => CAUTION_NAMES.some((known) => known === name);

/**
 * The standing texts by name.
 * @throws ContentError for a missing, unknown, empty or malformed file, and for a duration in a text of the note.
 */
export function readCautions(files: ContentFiles): Record<CautionName, Caution> {
  const found = Object.entries(files).map(([file, text]): [CautionName, Caution] => {
    const name = file.replace(/^.*\//, '').replace(/\.md$/, '');
    if (!isName(name)) throw new ContentError(file, 'name', 'no screen asks for a text of this name');
    const { head, body } = splitFrontMatter(text, file);
    const { title, where, points = [] } = checked(headSchema, head, file);
    const paragraphs = body
      .split(/\r?\n\s*\r?\n/)
      .map((paragraph) => paragraph.replace(/\s*\r?\n\s*/g, ' ').trim())
      .filter((paragraph) => paragraph !== '');
    if (ON_THE_NOTE.has(name)) refuseDurations(file, points, paragraphs);
    if (paragraphs.length === 0 && points.length === 0) throw new ContentError(file, 'body', 'the text is missing');
    return [name, { name, title, where, points, paragraphs }];
  });
  const byName = new Map(found);
  const textOf = (name: CautionName): Caution => {
    const caution = byName.get(name);
    if (!caution) throw new ContentError(`content/cautions/${name}.md`, 'file', 'missing');
    return caution;
  };
  return Object.fromEntries(CAUTION_NAMES.map((name) => [name, textOf(name)])) as Record<CautionName, Caution>;
}
