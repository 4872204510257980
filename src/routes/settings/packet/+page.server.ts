import { fail, redirect } from '@sveltejs/kit';
import { procedureOf } from '$lib/model';
import { textOf, type Fields } from '$lib/rooms/forms/fields';
import { makePacket } from '$lib/rooms/packet/make-packet';
import { casesOutWords, inPacket, notInPacket } from '$lib/rooms/packet/packet-view';
import { PACKET_LETTERS, readPacket } from '$lib/rooms/packet/read-packet';
import { attempt } from '$lib/server/attempt';
import { loadCautions } from '$lib/server/content';
import { fieldsOf } from '$lib/server/form-fields';
import { readRecord } from '$lib/server/record';
import { fewForPacket, noPacketWords, packetCases, packetNever, packetSet, packetWarning } from '$lib/words/packet';
import type { Actions, PageServerLoad } from './$types';

export const load: PageServerLoad = async ({ locals, url }) => {
  const record = await readRecord(locals.store);
  const procedure = procedureOf(record, url.searchParams.get('procedure') ?? record.profile.procedureId);
  const made = makePacket(record, procedure);
  return {
    procedures: record.procedures.map(({ id, name }) => ({ id, name })),
    procedureId: procedure.id,
    give:
      'because' in made
        ? { because: [fewForPacket(made.cases), ...casesOutWords(made.casesOut)].join(' '), packet: null, not: [] }
        : { because: null, packet: described(inPacket(made.packet, procedure)), not: notInPacket(made, procedure) },
    texts: { warning: packetWarning, never: packetNever, agreed: loadCautions()['reference-consent'].paragraphs },
  };
};

const described = (packet: ReturnType<typeof inPacket>) => ({ ...packet, words: packetCases(packet) });

export const actions = {
  /** Shows what is in a packet; nothing is stored. */
  look: async ({ locals, request }) => {
    const form = await request.formData();
    const file = form.get('packet');
    const text = file instanceof File && file.size <= PACKET_LETTERS ? await file.text() : null;
    return shown(text, await readRecord(locals.store));
  },

  take: async ({ locals, request }) => {
    const fields = fieldsOf(await request.formData());
    const record = await readRecord(locals.store);
    const text = textOf(fields, 'text');
    const read = readPacket(text, record);
    if ('because' in read || read.there !== null) return shown(text, record);
    const label = textOf(fields, 'label');
    const errors = [
      ...(label === '' || label.length > 60
        ? [{ field: 'label', message: 'Name: give the set a name of 1 to 60 characters, no person’s.' }]
        : []),
      ...(textOf(fields, 'agreed') === 'yes'
        ? []
        : [{ field: 'agreed', message: 'Say that the surgeon who made it agreed, or leave it.' }]),
    ];
    const again = { came: looked(text, read), values: fields };
    if (errors.length > 0) return fail(400, { ...again, errors });
    const { refused } = await attempt('label', () =>
      locals.store.saveReference({
        label,
        procedureId: read.procedure.id,
        agreedAt: locals.now,
        cases: read.cases,
        invented: false,
      }),
    );
    if (refused) return fail(409, { ...again, errors: [refused] });
    redirect(303, '/settings?said=packet#references');
  },
} satisfies Actions;

function shown(text: string | null, record: Awaited<ReturnType<typeof readRecord>>) {
  const read = text === null ? ({ because: 'too-long' } as const) : readPacket(text, record);
  if ('because' in read) return fail(400, { errors: [{ field: 'packet', message: noPacketWords(read) }] });
  if (read.there !== null) return fail(409, { errors: [{ field: 'packet', message: packetSet(read.there) }] });
  return { came: looked(text ?? '', read), values: {} as Fields };
}

/** What the page shows of a packet before it is taken, with the packet itself: it is held nowhere else. */
const looked = (text: string, read: Exclude<ReturnType<typeof readPacket>, { because: unknown }>) => ({
  text,
  packet: described(
    inPacket({ ...read.packet, cases: read.cases.map(({ reader: _, ...one }) => one) }, read.procedure),
  ),
  otherClocks: read.otherClocks,
  stepsUnknown: read.stepsUnknown,
  factsUnknown: read.factsUnknown,
});
