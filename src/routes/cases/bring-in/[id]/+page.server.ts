import { error, fail, redirect } from '@sveltejs/kit';
import { bringInView } from '$lib/rooms/bring-in/bring-in-view';
import { choicesFromForm } from '$lib/rooms/bring-in/import-choices';
import { answersToRemember, forgotten, forgottenOne, SHAPE } from '$lib/rooms/bring-in/remembered-answers';
import { hiddenCaseIds, timesWereSeen } from '$lib/rooms/goals/hidden-times';
import { kindOfRows, type RowKind } from '$lib/rooms/bring-in/rows-view';
import { textOf, type Fields } from '$lib/rooms/forms/fields';
import { importBatch, importPlan } from '$lib/rooms/bring-in/import-plan';
import { againWords, takenOutWords, withoutTaken } from '$lib/rooms/bring-in/import-words';
import { instantWords } from '$lib/rooms/forms/when-words';
import { chooseAhead } from '$lib/server/choose';
import { attempt } from '$lib/server/attempt';
import { fieldsOf } from '$lib/server/form-fields';
import {
  heldUntil,
  lookedAt,
  oddInHeld,
  partsAfter,
  readHeld,
  sameTextBefore,
  sentHash,
  textHash,
} from '$lib/server/held-import';
import { takenOut, withSurgeons } from '$lib/server/held-people';
import { clockTime } from '$lib/server/local-time';
import { loadCautions } from '$lib/server/content';
import { forgetShape, rememberShape } from '$lib/server/remembered-files';
import { readRecord } from '$lib/server/record';
import type { Store } from '$lib/server/storage/port';
import type { Actions, PageServerLoad } from './$types';

async function heldAnd(store: Store, id: string, now: string) {
  const held = await store.heldImport(id, now);
  if (!held)
    error(
      404,
      'This file is no longer held: it was taken in, put away, or not looked at for more than an hour. Bring it in again.',
    );
  return { held, record: await readRecord(store) };
}

/** Marks the answers a page was made with. */
const seenOf = (choices: Record<string, string>): string => textHash(JSON.stringify(choices)).slice(0, 16);

/** Which rows are shown: in the address, so that Back leads to them again. */
function wishOf(asked: URLSearchParams): { kind: RowKind; page: number } {
  const page = asked.get('page') ?? '';
  return { kind: kindOfRows(asked.get('show')), page: /^[1-9]\d{0,5}$/.test(page) ? Number(page) : 1 };
}

/** The button pressed, or what was shown when another was. */
function shownNext(fields: Fields): string {
  const kind = kindOfRows(textOf(fields, 'show') || textOf(fields, 'shown'));
  const page = textOf(fields, 'page') || (textOf(fields, 'show') ? '' : textOf(fields, 'paged'));
  const asked = [...(kind === 'all' ? [] : [`show=${kind}`]), ...(/^[1-9]\d{0,5}$/.test(page) ? [`page=${page}`] : [])];
  const moved = textOf(fields, 'show') !== '' || textOf(fields, 'page') !== '';
  return `${asked.length > 0 ? `?${asked.join('&')}` : ''}${moved ? '#rows' : ''}`;
}

export const load: PageServerLoad = async ({ locals, params, url }) => {
  const done = (await locals.store.imports()).find(({ id }) => id === params.id);
  if (done) redirect(303, `/cases?import=${done.id}`);
  const { held, record } = await heldAnd(locals.store, params.id, locals.now);
  const before = await sameTextBefore(locals.store, held);
  const reading = await readHeld(held, record, locals.now);
  const odd = await oddInHeld(held, record, locals.now);
  const parts = await partsAfter(locals.store, held);
  const out = takenOut(held);
  const view = bringInView(reading, held.choices, record, odd, wishOf(url.searchParams));
  return {
    fileName: held.fileName,
    parts: parts && { ...parts, next: parts.next.map(({ fileName }) => fileName) },
    taken: url.searchParams.get('said') === 'taken',
    view: { ...view, questions: withSurgeons(held.id, view.questions), columns: withoutTaken(view.columns, out) },
    takenOut: takenOutWords(out),
    ownCodes: out.codes === 'look',
    until: clockTime(heldUntil(held)),
    code: held.choices['code'] ?? '',
    known: held.choices['known'] ?? '',
    agreed: held.choices['agreed'] === 'yes',
    again: before ? againWords(instantWords(before.at), reading, importPlan(reading, held.choices, record)) : null,
    changed: url.searchParams.get('said') === 'changed',
    seen: seenOf(held.choices),
    texts: {
      reference: loadCautions()['reference-consent'].paragraphs,
      people: loadCautions()['no-patient-data'].paragraphs,
    },
  };
};

export const actions = {
  /** Keeps the answers and shows again what would be taken. */
  look: async ({ locals, params, request }) => {
    const fields = fieldsOf(await request.formData());
    const { held, record } = await heldAnd(locals.store, params.id, locals.now);
    const { choices } = choicesFromForm(fields, await readHeld(held, record, locals.now), held.choices);
    const { refused } = await attempt('take', () => lookedAt(locals.store, { ...held, choices }, locals.now));
    if (refused) return fail(409, { errors: [refused] });
    redirect(303, `/cases/bring-in/${held.id}${shownNext(fields)}`);
  },

  take: async ({ locals, params, request }) => {
    const fields = fieldsOf(await request.formData());
    const { held, record } = await heldAnd(locals.store, params.id, locals.now);
    const { choices, changed } = choicesFromForm(fields, await readHeld(held, record, locals.now), held.choices);
    const answered = { ...held, choices, heldAt: locals.now };
    const kept = await attempt('take', () => lookedAt(locals.store, answered, locals.now));
    if (kept.refused) return fail(409, { errors: [kept.refused] });
    // What is stored is what was seen: other answers are shown first, to the second of two clicks too.
    const shown = textOf(fields, 'seen');
    if (changed || (shown !== '' && shown !== seenOf(held.choices)))
      redirect(303, `/cases/bring-in/${held.id}?said=changed`);

    const reading = await readHeld(answered, record, locals.now);
    const plan = importPlan(reading, choices, record);
    const { take, whyNot } = bringInView(reading, choices, record);
    if (!take) return fail(400, { errors: [{ field: 'take', message: whyNot ?? 'There is nothing to take.' }] });
    const hidden = hiddenCaseIds(record);
    const byId = new Map(record.cases.map((one) => [one.id, one]));
    const seen = (caseId: string) => timesWereSeen(byId.get(caseId) ?? { id: caseId, stretches: [] }, hidden);
    const batch = importBatch(plan, reading, locals.now, seen);
    const { refused } = await attempt('take', () => locals.store.recordImport(held, batch, sentHash(held), locals.now));
    if (refused) return fail(409, { errors: [refused] });
    const shape = choices[SHAPE];
    if (shape) await rememberShape(locals.store, shape, answersToRemember(choices));
    if (reading.procedureId) void chooseAhead(locals.store, reading.procedureId);
    const [next] = (await partsAfter(locals.store, held))?.next ?? [];
    redirect(303, next ? `/cases/bring-in/${next.id}?said=taken` : `/cases?import=${held.id}`);
  },

  /** One answer, or the file is read as if no other had been taken before. */
  forget: async ({ locals, params, request }) => {
    const fields = fieldsOf(await request.formData());
    const { held } = await heldAnd(locals.store, params.id, locals.now);
    const shape = held.choices[SHAPE];
    const part = textOf(fields, 'part');
    if (shape) await forgetShape(locals.store, shape, part);
    await locals.store.updateHeldImport({
      ...held,
      choices: part ? forgottenOne(held.choices, part) : forgotten(held.choices),
    });
    redirect(303, `/cases/bring-in/${held.id}`);
  },

  drop: async ({ locals, params }) => {
    const held = await locals.store.heldImport(params.id);
    const [next] = (held && (await partsAfter(locals.store, held))?.next) ?? [];
    const { refused } = await attempt('take', () => locals.store.dropHeldImport(params.id));
    if (refused) return fail(409, { errors: [refused] });
    redirect(303, `/cases/bring-in${next ? `/${next.id}` : ''}`);
  },
} satisfies Actions;
