import type { Goal, Procedure } from '../../model';
import { aimedLabel, capital } from '../../format';
import type { EyeCard } from '../../rules/cards';
import { setAsideWords } from './eyes-on-list';

/** The note for the list: words only. No field of this type may ever hold a duration (a test reads them all). */
export type NoteView = {
  kind: 'goal' | 'general';
  goalId: string | null;
  title: string;
  checkpoints: readonly string[];
  ifThen: string | null;
  reminders: readonly string[];
  stop: readonly string[];
  /** Every protected part of the step, whichever of them is watched. */
  kept: readonly string[];
  /** Why this is the general note, or that the goal is not agreed yet. */
  lead: string | null;
  /** Once a month on the general note: what to say aloud with the team, at a desk. */
  rehearse: { title: string; href: string } | null;
  caution: readonly string[];
  foot: readonly string[];
};

/** Standing texts, handed in from content. */
export type NoteTexts = {
  standing: readonly string[];
  foot: readonly string[];
  generalLead: string;
  generalPoints: readonly string[];
  /** What to do when the capsule gives way: on every note. */
  rupture: readonly string[];
};

/**
 * One note a running goal; the general note when there is none. A draft goal that waits for the supervisor gives the
 * general note: until it is agreed, it covers only drills off the patient.
 * @param onList cards of the eyes that are on the list: checkpoints they set aside say so
 */
export function noteViews(
  goals: readonly Goal[],
  procedures: readonly Procedure[],
  texts: NoteTexts,
  onList: readonly EyeCard[] = [],
  rehearse: NoteView['rehearse'] = null,
): NoteView[] {
  const running = goals.filter((goal) => goal.state === 'running');
  const waiting = goals.some((goal) => goal.state === 'draft');
  if (running.length === 0)
    return [
      {
        kind: 'general',
        goalId: null,
        title: 'On any list',
        checkpoints: [],
        ifThen: null,
        reminders: [...texts.generalPoints, ...texts.rupture],
        stop: [],
        kept: [],
        lead: waiting
          ? 'Your goal is not agreed with your supervisor yet, so this is the general note: three things to keep in mind on any list.'
          : texts.generalLead,
        rehearse,
        caution: texts.standing,
        foot: texts.foot,
      },
    ];
  return running.map((goal) => {
    const step = procedures.find((each) => each.id === goal.procedureId)?.steps.find((each) => each.id === goal.stepId);
    return {
      kind: 'goal',
      goalId: goal.id,
      title: capital(aimedLabel(step?.label ?? goal.stepId, goal.eyes)),
      checkpoints: goal.checkpoints.map(({ id, look }) => look + setAsideWords(id, onList)),
      ifThen: goal.ifThen,
      reminders: goal.reminders,
      stop: [...goal.stopSigns, ...texts.rupture],
      kept: (step?.protectedParts ?? []).map((part) => part.label),
      lead: goal.eyes ? `For eyes with ${goal.eyes.label}. In other eyes operate as before.` : null,
      rehearse: null,
      caution: texts.standing,
      foot: texts.foot,
    };
  });
}
