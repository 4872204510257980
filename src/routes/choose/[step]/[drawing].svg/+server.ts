import { error } from '@sveltejs/kit';
import { render } from 'svelte/server';
import { KEYS } from '$lib/charts/keys';
import PatternRows from '$lib/charts/PatternRows.svelte';
import StepCases from '$lib/charts/StepCases.svelte';
import StripRows from '$lib/charts/StripRows.svelte';
import { svgFile } from '$lib/charts/svg-file';
import type { StepView } from '$lib/rooms/choose/step-view';
import { readRecord } from '$lib/server/record';
import { readStep } from '$lib/server/step';
import { svgResponse } from '$lib/server/svg-response';
import type { RequestHandler } from './$types';

/** The drawings of a step by their name in the address. */
const DRAWINGS: Readonly<Record<string, (view: StepView) => string | null>> = {
  patterns({ label, patterns: { lead, rows } }) {
    const title = `When ${label} takes longer`;
    const { body } = render(PatternRows, { props: { rows, label: title } });
    return svgFile(body, { title, reading: lead, key: KEYS.patterns });
  },
  split({ split }) {
    if (!split) return null;
    const { title, key, input } = split;
    return svgFile(render(StripRows, { props: { input, label: title, key } }).body, split);
  },
  cases({ run }) {
    const { cases, name, lanes, title, key } = run;
    return svgFile(render(StepCases, { props: { cases, name, lanes, label: title, key } }).body, run);
  },
};

/** A drawing of a step as a file, by the same marks as on the screen. */
export const GET: RequestHandler = async ({ locals, params, url }) => {
  const found = await readStep(await readRecord(locals.store), params.step, url.searchParams);
  const draw = Object.hasOwn(DRAWINGS, params.drawing) ? DRAWINGS[params.drawing] : undefined;
  if (!found || !draw) error(404, 'There is no drawing of this name.');
  const svg = found.room && draw(found.room);
  if (!svg) error(404, 'There is nothing to draw yet.');
  return svgResponse(svg, `${found.step.id}-${params.drawing}`);
};
