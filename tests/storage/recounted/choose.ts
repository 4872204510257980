import { clock, type Counts, LABELS, median, prose, quantile } from './by-hand';
import type { LeftTo, Recount } from './recount';

const STEP = [...LABELS.keys()].join('|');
const of = (label: string, { shown, times }: Counts) => times(shown, LABELS.get(label)!);
const gap = (values: readonly number[]) => median(values) - quantile(values, 0.2);
const between = (values: readonly number[], say: (seconds: number) => string, and: string) =>
  `${say(quantile(values, 1 / 6))} ${and} ${say(quantile(values, 5 / 6))}`;

const waitedPerCase = (label: string, { shown }: Counts) => {
  let sum = 0;
  for (const { stretches } of shown)
    for (const { kind, stepId, seconds } of stretches)
      if (kind === 'waiting' && stepId === LABELS.get(label)) sum += seconds;
  return sum / shown.length;
};
const shareOf = (label: string, by: Counts) => {
  let sum = 0;
  for (const each of LABELS.keys()) if (of(each, by).length > 0) sum += median(of(each, by));
  return Math.round((100 * median(of(label, by))) / sum);
};
const returnedIn = (label: string, { shown, times }: Counts) => {
  const id = LABELS.get(label)!;
  const done = shown.filter((one) => times([one], id).length > 0);
  return `${done.filter(({ returnsNoted }) => (returnsNoted[id] ?? 0) > 0).length} of ${done.length}`;
};

/** The line of a step in the table, counted again but for the columns that `COLUMNS_LEFT` names. */
function tableRow(row: string, by: Counts): string {
  const cells = row.split(' | ');
  const label = cells[0]!;
  const values = of(label, by);
  const end = cells.length;
  cells[1] = String(values.length);
  cells[2] = clock(median(values));
  if (values.length >= 5) {
    cells[3] = clock(quantile(values, 0.2));
    cells[4] = clock(gap(values));
    cells[end - 7] = between(values, clock, 'to');
  }
  cells[end - 6] = `${shareOf(label, by)} %`;
  cells[end - 5] = returnedIn(label, by);
  cells[end - 4] = clock(waitedPerCase(label, by));
  return cells.join(' | ');
}

export const COLUMNS_LEFT: readonly Omit<LeftTo, 'pattern'>[] = [
  {
    why: 'what goes with the eye, and what is left: adjusted by regression',
    test: 'tests/unit/audit/adjust-for-eye.test.ts',
  },
  { why: 'intervals and first places: resamples', test: 'tests/unit/audit/audit-of.test.ts' },
  { why: 'change over time: Theil and Sen', test: 'tests/published/shift-interval.test.ts' },
];

/** A row of the drawing: its median, the range of two thirds, and the difference as recorded. */
function drawnRow(row: string, by: Counts): string {
  const label = row.split(' | ')[0]!;
  const values = of(label, by);
  return row
    .replace(/^([^|]+) \| [\d:]+/, `$1 | ${clock(median(values))}`)
    .replace(
      /two thirds of cases between [\d:]+ and [\d:]+/,
      `two thirds of cases between ${between(values, clock, 'and')}`,
    )
    .replace(/median less 20th percentile (under )?\d+ s/, `median less 20th percentile ${prose(gap(values))}`);
}

export const choose: readonly Recount[] = [
  [new RegExp(`^((?:${STEP}) \\| \\d+ \\| .*)$`), ([row], by) => [tableRow(row!, by)]],
  [new RegExp(`^((?:${STEP}) \\| [\\d:]+ \\| .*)$`), ([row], by) => [drawnRow(row!, by)]],
  [
    /^(\d+) cases? counts?\.(.*) A suggestion needs (\d+) from at least (\d+) lists\. (\d+) more cases and (\d+) more lists? will do/,
    ([, said], { shown, listsOf }) => [shown.length, said!, 20, 4, 20 - shown.length, 4 - listsOf(shown).length],
  ],
  [
    /^(\d+) cases? counts?; (\d+) more cases and (\d+) more lists? will do/,
    (_, { shown, listsOf }) => [shown.length, 20 - shown.length, 4 - listsOf(shown).length],
  ],
  [
    /Latest (\d+) cases(?: from (\d+) lists?)?; dots/,
    (_, { shown, listsOf }) => [shown.length, shown.length === 0 ? '' : listsOf(shown).length],
  ],
  [
    /Dense is not used: only (\d+) of (\d+) cases differ from the commonest/,
    (_, { shown }) => {
      const yes = shown.filter(({ facts }) => facts['dense'] === true).length;
      const no = shown.filter(({ facts }) => facts['dense'] === false).length;
      return [Math.min(yes, no), yes + no];
    },
  ],
  [/\(posterior capsule tear\), (\d+) cases ago/, (_, { casesAgo }) => [casesAgo]],
  [/^(\d+) more cases? will have to pass/, (_, { casesAgo }) => [40 - casesAgo]],
  [
    /two thirds of cases between (.+?) and (.+?)\.$/,
    (_, by) => between(of('Practised', by), prose, 'and').split(' and '),
  ],
  [
    /Its median is (.+?); one in five of your own cases took (.+?) or less/,
    (_, by) => [prose(median(of('Practised', by))), prose(quantile(of('Practised', by), 0.2))],
  ],
  [/^(\d+) cases of the running window are not in it/, (_, { hidden }) => [hidden.length]],
  [/: (\d+) of 20 counted\.$/, (_, { running }) => [running.length]],
  [/: (\d+) of the following twenty counted/, (_, { running }) => [running.length]],
  [/Its result: (\d+) cases;/, (_, { windows }) => [windows[0]!.length]],
];
