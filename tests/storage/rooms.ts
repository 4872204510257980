import { readFileSync } from 'node:fs';
import { isHttpError, isRedirect, type RequestEvent } from '@sveltejs/kit';
import { everythingSchema, type Everything, type Store } from '../../src/lib/server/storage';

export type Answers = (event: RequestEvent) => unknown;
export const modules = import.meta.glob<{ load?: Answers; GET?: Answers; POST?: unknown }>([
  '../../src/routes/**/+page.server.ts',
  '../../src/routes/**/+layout.server.ts',
  '../../src/routes/**/+server.ts',
]);
export const idOf = (file: string) => file.replace(/^.*src\/routes/, '').replace(/\/\+[a-z.]+$/, '') || '/';

export type Filled = { store: Store; record: Everything; held: string };

/** The fellow with a window that is full and was not read, a file that waits, and a case half typed. */
export async function filled(store: Store): Promise<Filled> {
  const fellow = everythingSchema.parse(JSON.parse(readFileSync('demo-data/fellow.json', 'utf8')));
  await store.loadInvented({ ...fellow, results: [] });
  const { id } = await store.holdImport({
    heldAt: '2026-11-25T07:30:00.000Z',
    fileName: 'cells',
    text: 'case_id,capsulorhexis,hydrodissection\nH1,1.23,34\nH2,1.31,x\n',
    choices: {},
  });
  await store.saveDraft('new-case:W1', JSON.stringify({ code: ['W1'], procedure: ['phaco'] }));
  return { store, record: await store.everything(), held: id };
}

/** Cases before the running window in which it is known where the step stands in the recording. */
const placed = (cases: Everything['cases'], step: string) =>
  cases
    .filter(({ stretches }) => stretches.some(({ stepId, start }) => stepId === step && start !== null))
    .slice(-25, -23);

/** Every value an address may have in this place: each goal with each drawing, one case a kind, one step a room. */
export function paramsOf(id: string, { record, held }: Filled): Record<string, string>[] {
  const step = 'capsulorhexis';
  const drawings = {
    '/after-twenty': ['window', 'chart', 'change', 'done', 'safety', 'average', 'sums'],
    '/choose': ['patterns', 'cases'],
  };
  const goals = record.goals.map(({ id: goal }) => ({ goal }));
  const first = (all: readonly { id: string }[]) => ({ id: all[0]?.id ?? '' });
  if (id === '/after-twenty/[goal]/[drawing].svg')
    return goals.flatMap((each) => drawings['/after-twenty'].map((drawing) => ({ ...each, drawing })));
  if (id === '/after-twenty/[goal]' || id === '/after-twenty/[goal]/mentor') return goals;
  if (id === '/choose/[step]/[drawing].svg') return drawings['/choose'].map((drawing) => ({ step, drawing }));
  const known: Record<string, Record<string, string>[]> = {
    '/cases/[id]': [first(record.cases), { id: record.cases.at(-1)?.id ?? '' }],
    '/cases/[id]/chapters.vtt': [first(record.cases)],
    '/cases/bring-in/[id]': [{ id: held }],
    '/cases/bring-in/[id]/reading': [{ id: held }],
    '/cases/lists/[id]': [first(record.lists)],
    '/cases/lists/[id]/times': [first(record.lists)],
    '/checkpoints/[procedure]/[step]': [{ procedure: 'phaco', step }],
    '/checkpoints/[procedure]/[step]/eyes-closed': [{ procedure: 'phaco', step }],
    '/checkpoints/eyes/[id]': [{ id: 'polar' }],
    '/checkpoints/rehearsals/[id]': [{ id: 'rupture' }],
    '/choose/[step]': [{ step }],
    '/choose/[step]/pair': [{ step }],
    '/choose/[step]/clips': [{ step }],
    '/choose/[step]/clips/clips.csv': [{ step }],
    '/choose/[step]/clips/[case].vtt': placed(record.cases, step).map(({ id: one }) => ({ step, case: one })),
    '/method/[id]': [{ id: 'result' }],
    '/plan/[id]': record.goals.map(({ id: goal }) => ({ id: goal })),
    '/reflect/[id]': [first(record.reflections)],
    '/settings/procedures/[id]': [{ id: 'phaco' }],
    '/settings/procedures/[id]/words': [{ id: 'phaco' }],
    '/settings/procedures/[id]/steps/[step]': [{ id: 'phaco', step }],
    '/settings/procedures/[id]/facts/[fact]': [{ id: 'phaco', fact: 'nucleus' }],
  };
  if (!id.includes('[')) return [{}];
  const params = known[id];
  if (!params) throw new Error(`${id} needs an address to be asked by`);
  return params;
}

/** What a room answers to a GET; a page that leads elsewhere and one that is not there have answered. */
export async function asked(
  store: Store,
  answer: Answers,
  id: string,
  params: Record<string, string>,
  query: string,
): Promise<string> {
  const path = id.replace(/\[(\w+)\]/g, (_, name: string) => params[name] ?? '');
  const url = new URL(`http://127.0.0.1${path}${query}`);
  const locals = { store, now: '2026-11-25T08:00:00.000Z' };
  const event = { url, params, locals, route: { id }, request: new Request(url), setHeaders() {}, depends() {} };
  try {
    const given = await answer(event as unknown as RequestEvent);
    if (given instanceof Response) await given.text();
    return given instanceof Response && given.status !== 200 ? `${given.status}` : 'answered';
  } catch (thrown) {
    if (isRedirect(thrown)) return 'led elsewhere';
    if (isHttpError(thrown, 404)) return 'not there';
    throw thrown;
  }
}

export const queries: Record<string, readonly string[]> = {
  '/cases/new/times': ['?code=W1'],
  '/cases/time': ['', '?code=W1', '?code=none'],
  '/plan': ['', '?step=capsulorhexis&procedure=phaco'],
  '/report': ['', '?of=goal-1', '?of=2026-03', '?of=2026'],
  '/choose': ['', '?view=seconds', '?view=spread'],
  '/choose/[step]/pair': ['', '?another=1', '?another=x', '?said=note'],
  '/choose/[step]/clips': ['', '?case=case-1&look=flap'],
  '/choose/over-time/ratios.svg': ['', '?by=free&earlierFrom=F001&earlierTo=F025&laterFrom=F026&laterTo=F050'],
  '/cases/timing-plan': ['?when=31&operated=9'],
};
