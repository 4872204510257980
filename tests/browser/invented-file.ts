import { randomStream } from '../../src/lib/statistics';

/**
 * A surgeon made up for one test, as a file of stretches. The truth is planted here and known to the test:
 * capsulorhexis is long and varied before the goal (median 110 s, log-SD 0.40), so that it holds the most seconds and
 * varies most; after it, it takes `shift` of that time and nothing else changes. Every other step varies alike.
 */
export const PLANTED = { step: 'capsulorhexis', label: 'Capsulorhexis', shift: 0.5 };

const STEPS = [
  ['Paracentesis', 14, 0.16],
  ['Visco', 18, 0.16],
  ['Main incision', 22, 0.16],
  ['Rhexis', 110, 0.4],
  ['Hydrodissection', 34, 0.16],
  ['Phaco', 150, 0.14],
  ['I/A', 70, 0.16],
  ['IOL', 44, 0.16],
  ['Visco removal', 40, 0.16],
  ['Wound hydration', 46, 0.16],
] as const;

/** So many lists of `size` cases from list `first` on; that one is `daysAgo` days before today, the others follow `apart` days apart. */
export type Lists = {
  first: number;
  /** Number of the first case. */
  from: number;
  lists: number;
  size: number;
  daysAgo: number;
  apart: number;
  shift?: number;
  seed?: number;
};

const isoDay = ({ first, daysAgo, apart }: Lists, list: number) =>
  new Date(Date.now() - (daysAgo - (list - first) * apart) * 86_400_000).toISOString().slice(0, 10);

/** Codes of the cases of these lists, in order. */
export const codesOf = ({ from, lists, size }: Lists): string[] =>
  Array.from({ length: lists * size }, (_, index) => `K${String(from + index).padStart(3, '0')}`);

/** One row a stretch, clock readings of the recording, facts of the eye, and events asked and answered. */
export function stretchesFile(wanted: Lists): string {
  const { first, lists, size, shift = 1, seed = 11 } = wanted;
  const rows = ['case_id,date,position,procedure,nucleus,pupil,event,step,start_s,end_s'];
  const codes = codesOf(wanted);
  for (let list = first; list < first + lists; list++) {
    const ofTheDay = 0.04 * randomStream(seed, list).normal();
    for (let position = 1; position <= size; position++) {
      const stream = randomStream(seed, list, position);
      const code = codes[(list - first) * size + position - 1] ?? '';
      const ofThisCase = 0.08 * stream.normal() + ofTheDay;
      const nucleus = stream.uniform() < 0.3 ? 'soft' : 'medium';
      const pupil = stream.uniform() < 0.4 ? 'medium' : 'large';
      let clock = 5;
      for (const [label, usual, logSd] of STEPS) {
        const planted = label === 'Rhexis' ? shift : 1;
        const seconds = usual * planted * Math.exp(ofThisCase + logSd * stream.normal());
        const [start, end] = [clock.toFixed(1), (clock + seconds).toFixed(1)];
        rows.push([code, isoDay(wanted, list), position, 'phaco', nucleus, pupil, 'none', label, start, end].join(','));
        clock += seconds + 2;
      }
    }
  }
  return rows.join('\n');
}
