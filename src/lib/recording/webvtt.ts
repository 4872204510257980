/** One cue of a WebVTT file, with the line it begins in. Seconds. */
export type Cue = { row: number; start: number; end: number; text: string };

const STAMP = String.raw`(?:(\d{2,}):)?(\d{2}):(\d{2})[.,](\d{3})`;
const TIMING = new RegExp(`^${STAMP}\\s+-->\\s+${STAMP}`);

/** Meant as the time line of a cue: a clock reading and some arrow. */
const MEANT = /\d:\d\d.*(?:-+>|→)/;
const NO_CUE = /^(NOTE|STYLE|REGION)(\s|$)/;

export const isWebvtt = (text: string): boolean => /^WEBVTT(?:[ \t\r\n]|$)/.test(text);

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

/** Time lines that are none by the letter ("0:01 -> 0:59"), with the words under them: what would be lost without a word. */
export function unreadCuesOf(text: string): { row: number; timing: string; text: string }[] {
  const lines = text.split(/\r\n|\n|\r/).map((line) => line.trim());
  let passedOver = false;
  return lines.flatMap((line, index) => {
    if (line === '') passedOver = false;
    else if (NO_CUE.test(line) && (lines[index - 1] ?? '') === '') passedOver = true;
    if (passedOver || !MEANT.test(line) || TIMING.test(line)) return [];
    return [{ row: index + 1, timing: line, text: unescaped(lines[index + 1] ?? '') }];
  });
}

function seconds([hours, minutes, whole, thousandths]: readonly (string | undefined)[]): number {
  return (
    Math.round((Number(hours ?? 0) * 3600 + Number(minutes) * 60 + Number(whole)) * 1000 + Number(thousandths)) / 1000
  );
}

const unescaped = (text: string): string =>
  text
    .replace(/<[^>]*>/g, '')
    .replaceAll('&lt;', '<')
    .replaceAll('&gt;', '>')
    .replaceAll('&nbsp;', ' ')
    .replaceAll('&amp;', '&')
    .trim();

const escaped = (text: string): string => text.replaceAll('&', '&amp;').replaceAll('<', '&lt;').replaceAll('>', '&gt;');

/** Cues as a WebVTT file. Seconds, written to the millisecond; a cue of no length would be no cue and is left out. */
export function writeWebvtt(cues: readonly Omit<Cue, 'row'>[]): string {
  const written = cues.flatMap(({ start, end, text }) =>
    stamp(end) === stamp(start) ? [] : [`${stamp(start)} --> ${stamp(end)}\n${escaped(text)}\n`],
  );
  return `WEBVTT\n\n${written.join('\n')}`;
}

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
