import type { Case, Procedure, Stretch } from '../../model';
import type { NoSheet, Sheet } from '../table/cells';
import { toMilliseconds } from '../table/duration';
import { stepLabel } from '../headings/targets';

/** One cue of a WebVTT file. Seconds. */
export type Cue = { row: number; start: number; end: number; text: string };

const STAMP = String.raw`(?:(\d{2,}):)?(\d{2}):(\d{2})[.,](\d{3})`;
const TIMING = new RegExp(`^${STAMP}\\s+-->\\s+${STAMP}`);

export const isChapters = (text: string): boolean => /^WEBVTT(?:[ \t\r\n]|$)/.test(text);

/** Cues of a WebVTT file (W3C, "WebVTT: The Web Video Text Tracks Format"), with the line each begins in. Notes and styles are passed over. */
export function cuesOf(text: string): Cue[] {
  const lines = text.split(/\r\n|\n|\r/);
  return lines.flatMap((line, index): Cue[] => {
    const timing = TIMING.exec(line.trim());
    if (!timing) return [];
    const words: string[] = [];
    for (let next = index + 1; next < lines.length && lines[next]?.trim() !== ''; next += 1)
      words.push(lines[next]?.trim() ?? '');
    return [
      {
        row: index + 1,
        start: seconds(timing.slice(1, 5)),
        end: seconds(timing.slice(5, 9)),
        text: unescaped(words.join(' ')),
      },
    ];
  });
}

function seconds([hours, minutes, whole, thousandths]: readonly (string | undefined)[]): number {
  return toMilliseconds(Number(hours ?? 0) * 3600 + Number(minutes) * 60 + Number(whole) + Number(thousandths) / 1000);
}

const unescaped = (text: string): string =>
  text
    .replace(/<[^>]*>/g, '')
    .replaceAll('&lt;', '<')
    .replaceAll('&gt;', '>')
    .replaceAll('&nbsp;', ' ')
    .replaceAll('&amp;', '&')
    .trim();

/**
 * Chapter marks as a small sheet of stretches: a cue a stretch, "step · waiting · reason" for what is no step.
 *
 * @param code of the case: chapter marks hold none
 */
export function chaptersAsSheet(text: string, code: string): Sheet | NoSheet {
  const cues = cuesOf(text);
  if (cues.length === 0)
    return {
      row: null,
      problem:
        'There are no chapters in this file. A chapter is a line with two times and a line with the step under it.',
    };
  const rows = cues.map(({ start, end, text: words }) => {
    const [step = '', kind = '', reason = ''] = words.split(' · ');
    return [code, step === '–' ? '' : step, String(start), String(end), kind, reason];
  });
  const headings = ['case_id', 'step', 'start_s', 'end_s', 'kind', 'reason'];
  return {
    rows: [headings, ...rows].map((cells, index) => ({ row: index + 1, cells })),
    delimiter: ',',
    brokenQuoteRow: null,
    chapters: true,
  };
}

/** Is there a stretch of which more than the length is known? */
export const hasClockReadings = ({ stretches }: Pick<Case, 'stretches'>): boolean =>
  stretches.some(({ start, end }) => start !== null && end !== null);

/** One case as WebVTT chapters; stretches of which only the length is known are not in it. No code, no date. */
export function writeChapters(one: Pick<Case, 'stretches'>, procedure: Procedure): string {
  const cues = one.stretches.flatMap((stretch) => {
    if (stretch.start === null || stretch.end === null) return [];
    return [`${stamp(stretch.start)} --> ${stamp(stretch.end)}\n${escaped(cueText(stretch, procedure))}\n`];
  });
  return `WEBVTT\n\n${cues.join('\n')}`;
}

function cueText({ stepId, kind, reason }: Stretch, procedure: Procedure): string {
  const step = stepId === null ? '–' : stepLabel(procedure, stepId);
  return kind === 'step' ? step : [step, kind, ...(reason === null ? [] : [reason])].join(' · ');
}

const escaped = (text: string): string => text.replaceAll('&', '&amp;').replaceAll('<', '&lt;').replaceAll('>', '&gt;');

function stamp(total: number): string {
  const thousandths = Math.round(total * 1000);
  const two = (value: number) => String(value).padStart(2, '0');
  const [hours, minutes, whole] = [
    Math.floor(thousandths / 3_600_000),
    Math.floor(thousandths / 60_000) % 60,
    Math.floor(thousandths / 1000) % 60,
  ];
  return `${two(hours)}:${two(minutes)}:${two(whole)}.${String(thousandths % 1000).padStart(3, '0')}`;
}
