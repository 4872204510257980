import type { MentorAnchor } from '../model';

/** The three anchors, in words of ours; none of them is a mark or a step of a scale. */
export const ANCHOR_WORDS: Readonly<Record<MentorAnchor, { label: string; means: string }>> = {
  'not-seen': { label: 'not seen', means: 'in none of the stretches, though the moment for it came' },
  'with-correction': {
    label: 'seen with correction',
    means: 'in some of them, or only after a first try was put right',
  },
  'each-time': { label: 'seen each time', means: 'whenever the moment for it came, at the first try' },
};

const said = (anchor: MentorAnchor | null): string => (anchor ? ANCHOR_WORDS[anchor].label : 'not rated');

/** What the two wrote on one checkpoint, laid side by side; `null`: left open. Only a difference asks for another look. */
export function sideBySideWords(learner: MentorAnchor | null, mentor: MentorAnchor | null, who = 'You'): string {
  if (learner === mentor) return `Both: ${said(learner)}.`;
  const apart = `${who}: ${said(learner)}; mentor: ${said(mentor)}`;
  return learner && mentor ? `${apart}; watch again.` : `${apart}.`;
}

/** By which rule the stretches were taken. It does not say which of them is which: that would give the lengths away. */
export const chosenWords = (chosen: 'pair-and-latest' | 'latest', count: number): string =>
  chosen === 'latest'
    ? `The record holds no pair of this step, so ${count === 1 ? 'this is its latest counted case' : 'these are its latest counted cases'}.`
    : count === 3
      ? 'Two are the pair of this step, a shorter case and a longer one; the third is the latest counted case beside them. They stand in order of their codes; which of the pair is the shorter is not said.'
      : 'The pair of this step, a shorter case and a longer one, in order of their codes. The record holds no third counted case.';

/** Above the agreement of a review, wherever it stands: what it is of, and what it is not. */
export const reviewedWords = (when: string, stretches: number, earlier: number): string =>
  `Reviewed with a mentor in ${when}: each of the two rated ${stretches === 1 ? 'one stretch' : `${stretches === 2 ? 'two' : 'three'} stretches`} apart, without times. It is no score.${
    earlier === 0
      ? ''
      : earlier === 1
        ? ' One earlier review is kept with the goal.'
        : ` ${earlier} earlier reviews are kept with the goal.`
  }`;
