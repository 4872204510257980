import type { Case, Procedure, Stretch } from '../../model';
import type { NoSheet, Sheet } from '../table/cells';
import { cuesOf, unreadCuesOf, writeWebvtt } from '../../recording';
import { stepLabel } from '../headings/targets';

export { isWebvtt as isChapters } from '../../recording';

/**
 * Chapter marks as a small sheet of stretches: a cue a stretch, "step · waiting · reason" for what is no step.
 *
 * @param code of the case: chapter marks hold none
 */
export function chaptersAsSheet(text: string, code: string): Sheet | NoSheet {
  // What a time line says that cannot be read stands as its start, so that it is named like a wrong time in any sheet.
  const unread = unreadCuesOf(text).map(({ row, timing, text: words }) => ({
    row,
    start: timing,
    end: timing,
    text: words,
  }));
  const cues = [...cuesOf(text), ...unread].sort((a, b) => a.row - b.row);
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

/** The chapters alone: what stands in titles, notes and styles is not read, and may be about anybody. */
export function chaptersAlone(text: string, tells: (words: string) => boolean): string {
  const lines = text.split(/\r\n|\n|\r/);
  const all = [...cuesOf(text), ...unreadCuesOf(text)].sort((a, b) => a.row - b.row);
  const blocks = all.map(({ row, text: words }) => {
    const end = lines.findIndex((line, at) => at >= row && line.trim() === '');
    const said = tells(words) ? ['…'] : lines.slice(row, end === -1 ? undefined : end);
    return [lines[row - 1], ...said, ''].join('\n');
  });
  return ['WEBVTT', '', ...blocks].join('\n');
}

/** Is there a stretch of which more than the length is known? */
export const hasClockReadings = ({ stretches }: Pick<Case, 'stretches'>): boolean =>
  stretches.some(({ start, end }) => start !== null && end !== null);

/** One case as WebVTT chapters; stretches of which only the length is known are not in it. No code, no date. */
export function writeChapters(one: Pick<Case, 'stretches'>, procedure: Procedure): string {
  const cues = one.stretches.flatMap((stretch) => {
    if (stretch.start === null || stretch.end === null) return [];
    return [{ start: stretch.start, end: stretch.end, text: cueText(stretch, procedure) }];
  });
  return writeWebvtt(cues);
}

function cueText({ stepId, kind, reason }: Stretch, procedure: Procedure): string {
  const step = stepId === null ? '–' : stepLabel(procedure, stepId);
  return kind === 'step' ? step : [step, kind, ...(reason === null ? [] : [reason])].join(' · ');
}
