import { writeWebvtt } from './webvtt';

/** A place in a recording worth a mentor's eye: under the surgeon's own code, without a date. Seconds. */
export type Clip = { code: string; step: string; from: number; to: number; checkpoint: string };

/** Shown before a text that a spreadsheet would take as a formula, as in every file that goes out. */
const harmless = (text: string): string => (/^[=+\-@\t\r]/.test(text) ? `'${text}` : text);

const cell = (text: string): string => {
  const safe = harmless(text);
  return /[",\n\r;]/.test(safe) ? `"${safe.replaceAll('"', '""')}"` : safe;
};

/** One row a clip: code, step, from_s, to_s, checkpoint. */
export function clipsAsCsv(clips: readonly Clip[]): string {
  const rows = clips.map(({ code, step, from, to, checkpoint }) =>
    [cell(code), cell(step), String(from), String(to), cell(checkpoint)].join(','),
  );
  return `${['case_id,step,from_s,to_s,checkpoint', ...rows].join('\r\n')}\r\n`;
}

/** The clips of one recording as WebVTT, to lie beside it. */
export const clipsAsWebvtt = (clips: readonly Clip[]): string =>
  writeWebvtt(
    clips.map(({ step, from, to, checkpoint }) => ({
      start: from,
      end: to,
      text: checkpoint === '' ? step : `${step} · ${checkpoint}`,
    })),
  );
