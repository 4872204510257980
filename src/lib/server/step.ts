import { VIEWS } from '../rooms/choose/choose-view';
import { pairView, type PairView } from '../rooms/choose/pair-view';
import { procedureOf, type SurgeonRecord, type Procedure, type Step } from '../model';
import { stepView, type StepView } from '../rooms/choose/step-view';
import { pairEyesOf } from '../rules';
import { shownAudit } from './audits';
import { othersMeanwhile } from './in-turns';

export type StepRoom = {
  procedure: Procedure;
  /** The procedure the address names; `null` where it names none. */
  asked: string | null;
  step: Step;
  heldBack: number;
  room: StepView | null;
  pair: PairView;
};

/** What the page of a step shows at an address (`procedure`, `view`); `null`: the procedure has no such step. */
export async function readStep(
  record: SurgeonRecord,
  stepId: string,
  query: URLSearchParams,
): Promise<StepRoom | null> {
  const asked = query.get('procedure');
  const procedure = procedureOf(record, asked ?? record.profile.procedureId);
  const step = procedure.steps.find(({ id }) => id === stepId);
  if (!step) return null;
  const { audit, heldBack, cases } = await shownAudit(record, procedure);
  await othersMeanwhile.pause();
  const pair = pairView(cases, record.lists, procedure, stepId, pairEyesOf(audit, stepId));
  await othersMeanwhile.pause();
  const view = VIEWS.find((each) => each === query.get('view')) ?? null;
  return {
    procedure,
    asked: asked ? procedure.id : null,
    step,
    heldBack,
    room: stepView(audit, stepId, cases, {
      marked: pair.marked,
      query: { procedure: asked, view, by: query.get('by') },
    }),
    pair: pair.view,
  };
}
