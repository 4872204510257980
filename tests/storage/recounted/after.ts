import { clock, inHundred, median, percent, prose, zeroUpper, type Counts } from './by-hand';
import type { LeftTo, Recount } from './recount';

/** The answer written down last for a case and a checkpoint, and whether it came after the times. */
function answerOf({ reflections }: Counts, caseId: string, checkpointId: string) {
  const note = reflections
    .filter(({ answers }) => answers.some((each) => each.caseId === caseId && each.checkpointId === checkpointId))
    .at(-1);
  const found = note?.answers.find((each) => each.caseId === caseId && each.checkpointId === checkpointId);
  return { answer: found?.answer ?? null, late: note !== undefined && !note.beforeLengths };
}
/** "done in 5 of 11, partly in 2; 4 not answered". */
function doneWords(by: Counts, checkpointId: string): string {
  const all = by.first.map(({ id }) => answerOf(by, id, checkpointId));
  const count = (answer: string | null) => all.filter((each) => each.answer === answer).length;
  const part = (words: string, answer: string) => (count(answer) > 0 ? [`${words} in ${count(answer)}`] : []);
  const late = all.filter(({ answer, late: after }) => answer !== null && after).length;
  return [
    [
      `done in ${count('done')} of ${all.length}`,
      ...part('partly', 'partly'),
      ...part('not', 'not'),
      ...part('does not apply', 'did-not-arise'),
    ].join(', '),
    ...(count(null) > 0 ? [`${count(null)} not answered`] : []),
    ...(late > 0 ? [`${late} answered after the times had been shown`] : []),
  ].join('; ');
}
function partWords({ first }: Counts): string {
  const looked = first.filter(({ protectedSeen }) => protectedSeen['pause'] !== undefined);
  const seen = looked.filter(({ protectedSeen }) => protectedSeen['pause']).length;
  return `seen in ${seen} of ${looked.length} answered; not answered in ${first.length - looked.length}`;
}
const effect = (by: Counts, which: 'against' | 'plain') => by.result!.outcome[which]!;
const range = ({ low, high }: { low: number; high: number }) => {
  const [a, b] = [percent(high).match(/\d+/)![0], percent(low)];
  return `${a} to ${b}`;
};
const change = (by: Counts, which: 'against' | 'plain') =>
  `${percent(effect(by, which).estimate)} (${range(effect(by, which))})`;
/** What the surgeon set down of events in the span, and how many answered. */
const answered = ({ span, answeredIn }: Counts) => answeredIn(span).length;
/** Operations of the lists of the span that are in no case of the record. */
const untimed = ({ span, lists, listsOf, onList }: Counts) => {
  let [operated, asked] = [0, 0];
  for (const list of lists) {
    if (!listsOf(span).includes(list.id) || list.operated === null) continue;
    const more = list.operated - onList(list.id).length;
    [operated, asked] = [operated + more, asked + (list.eventsAnsweredForAll ? more : 0)];
  }
  return [operated, asked];
};

/** What is said of the result on After twenty and in the report alike. */
export const ofResult: readonly Recount[] = [
  [
    /Practised took about (.*) time than the rest .* \((.*); about (.*) a case\)\./,
    (_, by) => {
      const { estimate } = effect(by, 'against');
      const seconds = by.result!.outcome.baselineMedian! * (1 - Math.exp(estimate));
      return [percent(estimate), range(effect(by, 'against')), prose(seconds)];
    },
  ],
  [
    /(\d+) cases against (\d+) baseline cases, adjusted for the eye\./,
    (_, { windows, baseline, times }) => [times(windows[0]!, 'practised').length, times(baseline, 'practised').length],
  ],
  [
    /Median as recorded: (.+?) in the window \((\d+) cases\), (.+?) before \((\d+)\)\./,
    (_, { windows, baseline, times }) => {
      const [now, before] = [times(windows[0]!, 'practised'), times(baseline, 'practised')];
      return [prose(median(now)), now.length, prose(median(before)), before.length];
    },
  ],
  [/This step alone, adjusted for the eye: about (.*) time\./, (_, by) => [percent(effect(by, 'plain').estimate)]],
  [
    /stayed below its baseline: about (.*?) \((.*?)\)\. In the first window it was (.*?)\./,
    (_, by) => {
      const lasted = by.result!.lasted![0]!.lasting.effect;
      return [percent(lasted.estimate), range(lasted), percent(effect(by, 'against').estimate)];
    },
  ],
  [/(seen in \d+ of \d+ answered; not answered in \d+)/, (_, by) => [partWords(by)]],
];

/** In the report the words stand without their cells. */
export const doneInReport: Recount = [
  /(done in \d+ of \d+[^)|]*)/,
  ([said], by) => [doneWords(by, 'fold'), doneWords(by, 'port')].includes(said!),
];

export const after: readonly Recount[] = [
  // Before whatever counts a case by its code alone.
  [
    /^(K\d+) \| (?:none|event|not-answered) \| (?:\d+ per cent of|left out|cannot be compared).*; ([\d:]+) as recorded/,
    ([code], { byCode, times }) => [code!, clock(times([byCode(code!)!], 'practised')[0]!)],
  ],
  [/^Practised: (\d+) of (\d+) counted$/, (_, { running }) => [running.length, 20]],
  [/with (\d+) baseline cases\.$/, (_, { baseline }) => [baseline.length]],
  [
    /^(\d+) of 20 counted, over (\d+) of 4 lists\.$|^Hidden until the window is full and its cases are reviewed, or its result is read\. So far (\d+) of 20 cases, (\d+) of 4 lists\.$/,
    ([a], { running, listsOf }) => {
      const now = [running.length, listsOf(running).length];
      return a === '' ? ['', '', ...now] : [...now, '', ''];
    },
  ],
  [/^(\d+) timed; how many were operated is not noted for every list/, (_, { first }) => [first.length]],
  [
    /^(The flap lies folded over\.|The port is in view\.) \| (.*)$/,
    ([look, cells], by) => {
      const id = look!.includes('flap') ? 'fold' : 'port';
      // The words at the end are counted; each cell tells its own case.
      const told = by.first.map((one) => `case ${one.code}: `).filter((each) => !cells!.includes(each));
      return told.length === 0 && cells!.includes(doneWords(by, id)) ? [look!, cells!] : [look!, doneWords(by, id)];
    },
  ],
  [
    /^Events were answered in (\d+) of these (\d+) cases; none in those (\d+)\.$/,
    (_, by) => [answered(by), by.span.length, answered(by)],
  ],
  [
    /^For the (\d+) answered, rates up to ([\d.]+) in 100 cannot be ruled out/,
    (_, by) => [answered(by), inHundred(zeroUpper(answered(by)))],
  ],
  [/^Nothing can be said about the other (\d+)\./, (_, by) => [by.span.length - answered(by)]],
  [/is written down in these (\d+) cases/, (_, { span }) => [span.length]],
  [/^(Timed cases \| .*)events answered in (\d+) of (\d+)$/, ([cells], by) => [cells!, answered(by), by.span.length]],
  [
    /^(Operated on the same lists, not timed \| .*?)(\d+) operations; events answered in (\d+)$/,
    ([cells], by) => [cells!, ...untimed(by)],
  ],
  [/(\d+) cases? waits? for your review/, (_, { waiting }) => [waiting.length]],
  [
    /^(this step alone|against the rest of the operation) \| (?:(\d+ cases against \d+) \| (.*)|(\d.*\)) \| (\d+ cases against \d+))$/,
    ([row, cases], by) => {
      const n = `${by.windows[0]!.length} cases against ${by.baseline.length}`;
      const words = change(by, row === 'this step alone' ? 'plain' : 'against');
      return cases === '' ? [row!, '', '', words, n] : [row!, n, words, '', ''];
    },
  ],
  [/^Practised: about (.*) time in the next twenty/, (_, by) => [percent(effect(by, 'against').estimate)]],
  [
    /^Left out before times were seen: (\d+)\. After: (\d+)(?: \(all reasons: the timing is unreliable (\d+)\))?\.$/,
    ([, , all], { span }) => {
      const left = span.flatMap(({ leftOut }) => leftOut ?? []);
      const seen = left.filter(({ timesSeen }) => timesSeen).length;
      return [left.length - seen, seen, all === '' ? '' : left.length];
    },
  ],
  [/^baseline (\d+)(?= \|)/, (_, { baseline }) => [baseline.length]],
  [
    /^(K\d+) \| baseline (\d+)/,
    ([code], { baseline }) => [baseline.some((one) => one.code === code) ? code! : 'no', baseline.length],
  ],
  [
    /^(K\d+) \| following (20)/,
    ([code], { windows, byCode }) => {
      const [{ sequence }, [first, ...others]] = [byCode(code!)!, windows[1]!];
      const inside = sequence >= first!.sequence && sequence <= others.at(-1)!.sequence;
      return [inside ? code! : `${code} is outside`, windows[1]!.length];
    },
  ],
  [/following (\d+)/, ([cases], { windows }) => windows[1]!.length === Number(cases)],
  [/a baseline of only (\d+) cases/, (_, { baseline }) => [baseline.length]],
  [
    /at case (K\d+), number (\d+) after the start/,
    ([code], { windows }) => [code!, windows.flat().findIndex((one) => one.code === code) + 1],
  ],
];

export const leftOfAfter: readonly LeftTo[] = [
  {
    pattern:
      /§ \| \d+ \| \d+ to \d+|§ \| \d+(?= \|)|\d+ per cent of the baseline median|(\| (baseline §|§|next twenty|following 20)? ?\| ?)\d+(?= \|)|\| \d+ \| \d+ to \d+$|average \d+, limits \d+ to \d+|^\d+ to \d+$|^\d+$|^\d+\.\d$/,
    why: 'points and limits of the charts: this step over the rest, adjusted',
    test: 'tests/unit/practice/chart-series.test.ts',
  },
  {
    pattern: /longer [\d.]+, shorter [\d.]+ standard deviations|\| [\d.]+ \| [\d.]+ \| [\d.]+$/,
    why: 'cumulative sums',
    test: 'tests/published/charts.test.ts',
  },
  {
    pattern: /\d+ of these \d+ times, adjusted for the eye, are shorter than nine in ten/,
    why: 'adjusted times against a percentile of the baseline',
    test: 'tests/unit/practice/short-times.test.ts',
  },
];
