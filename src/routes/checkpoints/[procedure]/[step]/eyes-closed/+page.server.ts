import { error } from '@sveltejs/kit';
import { eyeDrawings } from '$lib/charts/eye/eye-drawings.server';
import { eyesClosed } from '$lib/rooms/checkpoints/eyes-closed';
import { loadCautions, loadGuidance, renderLine } from '$lib/server/content';
import { proceduresOf } from '$lib/server/procedures';
import type { PageServerLoad } from './$types';

const WEEK = 7 * 86_400_000;

export const load: PageServerLoad = async ({ locals, params }) => {
  const [procedures, goals] = await Promise.all([proceduresOf(locals.store), locals.store.goals()]);
  const procedure = procedures.find(({ id }) => id === params.procedure);
  const step = procedure?.steps.find(({ id }) => id === params.step);
  const page = loadGuidance().find((each) => each.procedureId === params.procedure && each.step === params.step);
  if (!procedure || !step || !page) error(404, 'No such step in this procedure.');
  const goal = goals.find(
    (each) => each.state === 'running' && each.procedureId === procedure.id && each.stepId === step.id,
  );
  const script = eyesClosed(page, goal ?? null, Math.floor(Date.parse(locals.now) / WEEK));
  if (!script) error(404, 'This page has no stop sign with its answer yet.');
  const line = (text: string) => renderLine(text, page.marked);
  const scenes = eyeDrawings(page.checkpoints.map(({ id }) => id));
  const drawn = page.checkpoints.find(({ id }) => scenes[id]);
  return {
    procedure: { id: procedure.id, name: procedure.name },
    step: { id: step.id, label: step.label },
    ofGoal: goal !== undefined && goal.checkpoints.length > 0,
    script: {
      aim: line(script.aim),
      see: script.see.map(line),
      sign: line(script.sign),
      answer: line(script.answer),
    },
    scene: drawn ? (scenes[drawn.id] ?? null) : null,
    caution: loadCautions()['guidance-page'].paragraphs,
  };
};
