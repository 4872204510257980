import { runsFrom, type ListRecord } from '../../model';
import { practiceThresholds } from '../../practice';
import { aimedRetiredWords, slowWindowWords } from '../../words';
import type { GoalStanding } from './goal-standing';

const DAY = 24 * 60 * 60 * 1000;

/**
 * What has to be known of an open goal aimed at certain eyes: that its fact is no longer asked for, or that its first
 * window has run for a year of lists and is not full. Empty for any other goal. The year is told by the latest dated
 * list: without dates nothing is said.
 */
export function aimedNotices({ goal, procedure, window }: GoalStanding, lists: readonly ListRecord[]): string[] {
  const { eyes } = goal;
  if (!eyes || goal.state === 'closed') return [];
  const retired = !procedure.facts.some(({ id }) => id === eyes.fact);
  const latest = lists
    .flatMap(({ when }) => (when.kind === 'date' ? [Date.parse(when.date)] : []))
    .sort()
    .at(-1);
  const days = latest === undefined ? 0 : (latest - Date.parse(runsFrom(goal))) / DAY;
  const slow = !window.full && days >= practiceThresholds.windowYearDays;
  return [
    ...(retired ? [aimedRetiredWords(eyes.label)] : []),
    ...(slow ? [slowWindowWords(eyes.label, window.running.length, window.need.cases)] : []),
  ];
}
