import { error } from '@sveltejs/kit';
import { VIEWS } from '$lib/assessment/choose-view';
import { pairView } from '$lib/assessment/pair-view';
import { procedureOf } from '$lib/assessment/record';
import { guidanceOf, stepView } from '$lib/assessment/step-view';
import { shownAudit } from '$lib/server/audits';
import { loadCautions, loadGuidance, renderMarkdown } from '$lib/server/content';
import { readRecord } from '$lib/server/record';
import type { PageServerLoad } from './$types';

export const load: PageServerLoad = async ({ locals, params, url }) => {
  const record = await readRecord(locals.store);
  const asked = url.searchParams.get('procedure');
  const procedure = procedureOf(record, asked ?? record.profile.procedureId);
  const known = procedure.steps.find(({ id }) => id === params.step);
  if (!known) error(404, `${procedure.name} has no step of this name.`);
  const { audit, heldBack, cases } = await shownAudit(record, procedure);
  const pair = pairView(cases, record.lists, procedure, params.step);
  const view = VIEWS.find((each) => each === url.searchParams.get('view')) ?? null;
  const page = guidanceOf(loadGuidance(), procedure, params.step);
  return {
    label: known.label,
    procedure: asked ? procedure.id : null,
    heldBack,
    room: stepView(audit, params.step, cases, { marked: pair.marked, query: { procedure: asked, view } }),
    pair: pair.view,
    guidance: page && { ...page, html: renderMarkdown(page.body), href: `/checkpoints/${procedure.id}/${params.step}` },
    caution: loadCautions().standing.paragraphs,
    guidanceCaution: loadCautions()['guidance-page'].paragraphs,
  };
};
