import { aimedLabel, capital, inSentence } from '../../format';
import { mentorAnchors, procedureOf, same, type Goal, type MentorReview, type SurgeonRecord } from '../../model';
import { ANCHOR_WORDS, chosenWords } from '../../words';
import { latestReview, stageOf, type Rater, type ReviewStage } from './review-steps';
import { sideBySide, type SideBySide } from './side-by-side';
import type { Stretches } from './stretches';

/** `values`: what stands in it already; `replaces`: when that was stored, '' where nothing is. */
export type HalfForm = {
  by: Rater;
  legend: string;
  values: Readonly<Record<string, readonly string[]>>;
  replaces: string;
};

/** The page and the printed sheet of a review with a mentor. No field of this type may ever hold a time or a date (a test reads them all). */
export type MentorView = {
  goalId: string;
  step: string;
  head: string;
  lede: string;
  stage: ReviewStage;
  checkpoints: readonly { id: string; look: string }[];
  anchors: readonly { value: string; label: string; means: string }[];
  /** The half that is filled in now: the one whose turn it is, or one that is stored and opened to be corrected. */
  half: HalfForm | null;
  /** The stored halves of the latest review, each to be opened for a correction. */
  correct: readonly { href: string; words: string }[];
  /** The stretches of this review, or those the next one would take; `null`: no case has the step. */
  stretches: { codes: readonly string[]; rule: string } | null;
  /** What the button says that takes these stretches for a review; `null`: the review under way has them. */
  begin: string | null;
  /** The latest review once both were stored. */
  together: SideBySide | null;
  earlier: readonly (SideBySide & { title: string })[];
  /** Why no review can begin. */
  cannot: string | null;
};

const HEADS: Record<ReviewStage, { head: (step: string) => string; lede: string }> = {
  none: {
    head: (step) => `Look at ${step} together with a mentor.`,
    lede: 'Three stretches, each of you with the same checkpoints, apart at first.',
  },
  learner: {
    head: () => 'Your own half first.',
    lede: 'Fill it in here, or both halves on paper and type them in one after the other.',
  },
  mentor: {
    head: () => 'Now the mentor’s half.',
    lede: 'Yours is stored and out of sight until this one is, too.',
  },
  done: {
    head: () => 'The two halves, side by side.',
    lede: 'The learner speaks first. Where the two differ, watch that stretch again together.',
  },
};

/**
 * @param next the stretches a new review would take
 * @param correct the half to be opened again, as the address names it
 */
export function mentorView(
  record: SurgeonRecord,
  goal: Goal,
  next: Stretches | null,
  correct: string | null = null,
): MentorView {
  const review = latestReview(goal);
  const stage = stageOf(review);
  const step = procedureOf(record, goal.procedureId).steps.find(({ id }) => id === goal.stepId);
  const label = aimedLabel(step?.label ?? goal.stepId, goal.eyes);
  const half = halfOf(review, stage, correct);
  const shown = half ? review : next;
  const earlier = (goal.mentorReviews ?? []).map((each, index) => ({
    title: `Review ${index + 1}`,
    ...sideBySide(goal, each),
  }));
  return {
    goalId: goal.id,
    step: label,
    head: HEADS[stage].head(inSentence(label)),
    lede: HEADS[stage].lede,
    stage,
    checkpoints: goal.checkpoints.map(({ id, look }) => ({ id, look })),
    anchors: mentorAnchors.map((value) => ({ value, ...ANCHOR_WORDS[value] })),
    half,
    correct: RATERS.flatMap((by) =>
      review?.[by] ? [{ href: `/after-twenty/${goal.id}/mentor?correct=${by}`, words: `Correct ${HALVES[by]}` }] : [],
    ),
    stretches: shown && {
      codes: codesOf(record, shown.caseIds),
      rule: chosenWords(shown.chosen, shown.caseIds.length),
    },
    begin: beginWords(stage, !same(next?.caseIds, review?.caseIds)),
    together: review && stage === 'done' ? sideBySide(goal, review) : null,
    earlier: earlier.slice(0, -1).reverse(),
    cannot:
      goal.checkpoints.length === 0
        ? 'This goal has no checkpoints, so there is nothing to look at together here.'
        : shown === null
          ? 'No counted case with this step is in the record that was not noted by hand, so there is nothing to watch.'
          : null,
  };
}

const RATERS: readonly Rater[] = ['learner', 'mentor'];
const HALVES: Record<Rater, string> = { learner: 'your half', mentor: 'the mentor’s half' };

function halfOf(review: MentorReview | null, stage: ReviewStage, correct: string | null): HalfForm | null {
  const asked = RATERS.find((by) => by === correct && review?.[by]);
  const by = asked ?? RATERS.find((each) => each === stage);
  if (!by) return null;
  const stored = review?.[by] ?? null;
  return {
    by,
    legend: capital(HALVES[by]),
    values: stored
      ? {
          ...Object.fromEntries(stored.ratings.map(({ checkpointId, anchor }) => [`rating:${checkpointId}`, [anchor]])),
          saw: [stored.saw],
        }
      : {},
    replaces: stored?.at ?? '',
  };
}

function beginWords(stage: ReviewStage, others: boolean): string | null {
  if (stage === 'none') return 'Begin a review with these';
  if (stage !== 'learner') return 'Begin another review';
  return others ? 'Take the latest cases instead' : null;
}

const codesOf = ({ cases }: SurgeonRecord, ids: readonly string[]): string[] =>
  ids.map((id) => cases.find((each) => each.id === id)?.code ?? 'a case erased since');
