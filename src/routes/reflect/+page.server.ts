import { caseChoices, reflectionRows, waitingForReview } from '$lib/assessment/reflect-view';
import { loadCautions, renderOwnMarkdown } from '$lib/server/content';
import { windowOf } from '$lib/practice';
import { procedureOf } from '$lib/assessment/record';
import { readRecord } from '$lib/server/record';
import type { PageServerLoad } from './$types';

export const load: PageServerLoad = async ({ locals, url }) => {
  const { store } = locals;
  const record = await readRecord(store);
  const { cases, lists, goals, reflections, procedures } = record;
  const running = goals.find((goal) => goal.state === 'running' || goal.state === 'paused') ?? null;
  const waiting = running
    ? waitingForReview(windowOf(running, cases, lists, procedureOf(record, running.procedureId)).counted, reflections)
    : [];
  const asked = (name: string) => (url.searchParams.get(name) ?? '').slice(0, 100);
  const filter = {
    word: asked('word'),
    stepId: asked('step'),
    checkpointId: asked('checkpoint'),
    from: asked('from'),
    to: asked('to'),
  };
  const usedSteps = new Set(reflections.map((each) => each.stepId));
  return {
    waiting: caseChoices(cases, lists, waiting, 0),
    others: caseChoices(cases, lists, [], 30).filter((each) => !waiting.includes(each.id)),
    any: reflections.length > 0,
    filter,
    filtered: Object.values(filter).some(Boolean),
    steps: procedures
      .flatMap((each) => each.steps)
      .filter((step, index, all) => usedSteps.has(step.id) && all.findIndex((one) => one.id === step.id) === index)
      .map(({ id, label }) => ({ id, label })),
    checkpoints: goals
      .flatMap((goal) => goal.checkpoints)
      .map(({ id, look }) => ({ id, look }))
      .filter((one, index, all) => all.findIndex((each) => each.id === one.id) === index),
    rows: reflectionRows(reflections, cases, procedures, filter).map((row) => ({
      ...row,
      sawHtml: renderOwnMarkdown(row.saw),
      willTryHtml: renderOwnMarkdown(row.willTry),
    })),
    notice: loadCautions().reflection.paragraphs,
    draft: (await store.draft('reflection-new')) !== null,
    said: url.searchParams.get('said'),
  };
};
