import { workbook } from './workbook';

/** Three files as they come from outside, all invented; the counts of each are worked out here, apart from the program. */

const pad = (n: number) => String(n).padStart(2, '0');

/** Wide and messy: a title, semicolons, decimals that are minutes and seconds, words of several kinds, totals below. */
export function messyWide() {
  const events = ['none', '-', '', 'keine', 'OK?', 'PCR'];
  const cases = Array.from({ length: 24 }, (_, at) => ({
    code: `M${at + 1}`,
    cells: [
      `${pad(1 + (at % 6))}.03.2026`,
      at % 3 === 0 ? 'x' : '',
      ['normal', '2+', 'hard', 'cheese'][at % 4] ?? '',
      `1.${pad((at * 7) % 60)}`,
      `${20 + at}`,
      `2.${pad((at * 11) % 60)}`,
      events[at % 6] ?? '',
      'Smith',
    ],
  }));
  const text = [
    'Audit of the spring;;;;;;;;',
    'Case no;Date;Small pupil;Nucleus density;Rhexis;Hydro (s);Phaco;Complication;Patient name',
    ...cases.map(({ code, cells }) => [code, ...cells].join(';')),
    'AVERAGE / TOTAL;;;;1.29;31;2.30;;',
    'Ø;;;;1.29;31;2.30;;',
  ].join('\n');
  const of = (column: number, word: string) => cases.filter(({ cells }) => cells[column] === word).length;
  return {
    text,
    rows: 1 + cases.length + 2,
    cases: cases.length,
    rowsOut: 3,
    cheese: of(2, 'cheese'),
    emptyEvents: of(6, ''),
    dashes: of(6, '-'),
    small: of(1, 'x'),
    large: of(1, ''),
    none: of(6, 'none') + of(6, 'keine'),
    /** 1.07 is a minute and 7 seconds. */
    rhexisOfSecond: 67,
  };
}

/** Long: a row a stretch, with blanks where nothing was timed and a name no step has. */
export function longWithBlanks() {
  const steps = ['Rhexis', 'Hydrodissection', 'Phaco', 'Cortex', 'IOL'];
  const rows: string[] = [];
  let [blank, unknown] = [0, 0];
  for (let one = 1; one <= 60; one++) {
    for (const [at, step] of steps.entries()) {
      const empty = (one + at) % 9 === 0;
      if (empty) blank += 1;
      rows.push(`L${one},${1 + Math.floor(one / 6)},${step},${empty ? '' : 30 + ((one * 7 + at * 11) % 40)},`);
    }
    if (one % 20 === 0) {
      unknown += 1;
      rows.push(`L${one},${1 + Math.floor(one / 6)},Ring in,25,`);
    }
  }
  return { text: ['case,list,step,seconds,event', ...rows].join('\n'), rows: rows.length, cases: 60, blank, unknown };
}

/** A workbook in German: its times on the second sheet. */
export function germanWorkbook() {
  const heads = ['Fall Nr', 'Enge Pupille', 'Weiße Katarakt', 'Rhexis', 'Hydrodissektion', 'Komplikation'];
  const cases = Array.from({ length: 12 }, (_, at): (string | number)[] => [
    `G${at + 1}`,
    at % 4 === 0 ? 'ja' : 'nein',
    at % 5 === 0 ? 'ja' : 'nein',
    70 + at,
    25 + at,
    at === 3 ? 'Kapselruptur' : 'keine',
  ]);
  const sums = ['Mittelwert', '', '', 75.5, 30.5, ''];
  const sheet = [heads, ...cases, sums];
  return {
    file: workbook({ Hinweise: [['Nur eigene Fälle']], Zeiten: sheet }),
    text: sheet.map((row) => row.join('\t')).join('\n'),
    rows: 13,
    cases: 12,
    small: 3,
    white: 3,
  };
}
