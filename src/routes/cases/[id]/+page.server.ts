import { error } from '@sveltejs/kit';
import { leftOutOptions } from '$lib/words/left-out';
import { caseView } from '$lib/rooms/cases/case-view';
import { noticedOptions } from '$lib/rooms/forms/event-fields';
import { hiddenCaseIds } from '$lib/rooms/goals/hidden-times';
import { oddInCase } from '$lib/rooms/cases/odd-times';
import { inTurns } from '$lib/server/in-turns';
import { rehearsalsAfter } from '$lib/rules';
import { loadCautions, loadRehearsals } from '$lib/server/content';
import { importedLast, lastUndo } from '$lib/server/last-change';
import { readRecord } from '$lib/server/record';
import { saidIn } from '$lib/server/said-in';
import { dutyActions } from './duty-actions.server';
import { editActions } from './edit-actions.server';
import { eventActions } from './event-actions.server';
import { undoActions } from './undo-actions.server';
import type { Actions, PageServerLoad } from './$types';

const SAID: Record<string, string> = {
  timed: 'The case is in the record.',
  'timed-again': 'The second timing is kept beside the first; the page of each step says how far apart they are.',
  facts: 'The facts of this eye are stored.',
  hands: 'Who did which step is stored.',
  times: 'The times are stored; the earlier ones are in the history.',
  place: 'List, place, eye and remark are stored.',
  events: 'The answer about events is stored.',
  reviewed: 'Your review of the event is stored.',
  kept: 'The protected parts are stored.',
  'left-out': 'The case is left out; it stays in the record.',
  counted: 'The case counts again.',
  'kept-as-it-is': 'The case is kept as it is. Nothing in it can be changed until you lift this.',
  lifted: 'The case can be changed again.',
  undone: 'The last change is undone; both are in the history.',
  same: 'Nothing was different, so nothing was stored.',
};

export const load: PageServerLoad = async ({ locals, params, url }) => {
  const record = await readRecord(locals.store);
  const one = record.cases.find(({ id }) => id === params.id);
  if (!one) error(404, 'There is no such case in the record.');
  const cautions = loadCautions();
  const said = saidIn(SAID, url);
  const code = url.searchParams.get('said') ?? '';
  // After a later change a reload would repeat a sentence about an older one; the undo is then in the history alone.
  const saidNow = Number(url.searchParams.get('version') ?? one.version) === one.version;
  const undo = await lastUndo(locals.store, record, [one.id], locals.now);
  return {
    rehearse: (one.events ?? []).map(({ kind }) =>
      rehearsalsAfter(loadRehearsals(), one.procedureId, kind).map(({ id, title }) => ({
        title,
        href: `/checkpoints/rehearsals/${id}`,
      })),
    ),
    view: caseView(one, record, hiddenCaseIds(record).has(one.id)),
    odd: await inTurns(oddInCase(one, record)),
    undo: undo?.kind === 'offered' ? { of: undo.of, others: undo.cases - 1 } : null,
    noUndo: undo?.kind === 'refused' ? undo.because : null,
    importedLast: undo ? null : await importedLast(locals.store, one),
    leftOutOptions,
    noticed: noticedOptions,
    said: said === null ? null : { code, words: said, undo: saidNow && code !== 'same' },
    texts: {
      prompts: cautions['event-prompts'],
      field: cautions['event-field'].paragraphs,
      keep: cautions['keep-as-it-is'].paragraphs,
      erase: cautions.erase.paragraphs,
      history: cautions['editing-history'].paragraphs,
    },
  };
};

export const actions = { ...editActions, ...eventActions, ...dutyActions, ...undoActions } satisfies Actions;
