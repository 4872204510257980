import { error } from '@sveltejs/kit';
import { render } from 'svelte/server';
import AfterRun from '$lib/charts/AfterRun.svelte';
import CellSheet from '$lib/charts/CellSheet.svelte';
import DotLine from '$lib/charts/DotLine.svelte';
import { KEYS } from '$lib/charts/keys';
import ShiftChart from '$lib/charts/ShiftChart.svelte';
import { svgFile } from '$lib/charts/svg-file';
import type { RunView } from '$lib/rooms/after-twenty/after-chart';
import type { AfterView } from '$lib/rooms/after-twenty/after-view';
import type { ShiftView } from '$lib/rooms/after-twenty/other-charts';
import { readAfter } from '$lib/server/after';
import { readRecord } from '$lib/server/record';
import { svgResponse } from '$lib/server/svg-response';
import type { RequestHandler } from './$types';

type Words = { title: string; reading: string; key: string };
type Drawn = { body: string; words: Words } | null;

/** Every drawing of the page by its name in the address; `null` where the page does not show it now. */
const DRAWINGS: Readonly<Record<string, (view: AfterView) => Drawn>> = {
  chart: ({ time }) => runDrawn(runIn(time)),
  change({ time, step }) {
    if (time.kind !== 'result' || time.result.rows.length === 0) return null;
    const { rows, reading } = time.result;
    const title = `${step}: the change, with its interval`;
    return {
      words: { title, reading, key: KEYS.change },
      body: render(DotLine, { props: { rows, label: title } }).body,
    };
  },
  done: ({ done: { rows, lead }, step }) => ({
    words: { title: `${step}: what was done, case by case`, reading: lead, key: KEYS.done },
    body: render(CellSheet, { props: { rows } }).body,
  }),
  safety: ({ safety: { rows, head, sentences }, step }) => ({
    words: { title: `${step}: safety`, reading: [head, ...sentences].join(' '), key: KEYS.safety },
    body: render(CellSheet, { props: { rows } }).body,
  }),
  average: ({ otherCharts }) => otherCharts && shiftDrawn(otherCharts.average),
  sums: ({ otherCharts }) => otherCharts && shiftDrawn(otherCharts.sums),
};

const runIn = (time: AfterView['time']) => (time.kind === 'result' || time.kind === 'so-far' ? time.run : null);

function runDrawn(run: RunView | null): Drawn {
  if (!run) return null;
  const { cases, periods, limits, lanes, title } = run;
  const input = { cases, periods, limits, one: '100', lanes };
  return { words: run, body: render(AfterRun, { props: { input, label: title } }).body };
}

const shiftDrawn = (view: ShiftView): Drawn => ({
  words: view,
  body: render(ShiftChart, { props: { input: view.input, label: view.title } }).body,
});

/** A drawing as a file; what the screen keeps from view is not in it either. */
export const GET: RequestHandler = async ({ locals, params }) => {
  const record = await readRecord(locals.store);
  const goal = record.goals.find(({ id }) => id === params.goal);
  if (!goal) error(404, 'There is no goal at this address.');
  const draw = Object.hasOwn(DRAWINGS, params.drawing) ? DRAWINGS[params.drawing] : undefined;
  if (!draw) error(404, 'There is no drawing of this name.');
  const drawn = draw(await readAfter(record, goal));
  const svg = drawn && svgFile(drawn.body, drawn.words);
  if (!svg) error(404, 'There is nothing to draw for this goal yet.');
  return svgResponse(svg, `after-twenty-${goal.stepId}-${params.drawing}`);
};
