import { describe, expect, it } from 'vitest';
import type { Fields } from '../../../../src/lib/rooms/forms/fields';
import { factForm, factFromForm, withoutFact } from '../../../../src/lib/rooms/settings/procedures/fact-form';
import { newProcedureFromForm, stepRowsOffered } from '../../../../src/lib/rooms/settings/procedures/new-procedure';
import { errorsOf, procedureProblems } from '../../../../src/lib/rooms/settings/procedures/problems';
import { procedureView } from '../../../../src/lib/rooms/settings/procedures/procedures-view';
import { stepForm, stepFromForm } from '../../../../src/lib/rooms/settings/procedures/step-form';
import { useOf } from '../../../../src/lib/rooms/settings/procedures/use';
import { wordsForm, wordsFromForm } from '../../../../src/lib/rooms/settings/procedures/words-form';
import type { Procedure } from '../../../../src/lib/model';
import { loadProcedures } from '../../../../src/lib/server/content/library';
import { aCase, aGoal, aRecord, smallProcedure } from '../../../made-up/record';
import { graftForm, graftRows } from '../../../made-up/graft';

const shipped = loadProcedures();
const use = useOf(aRecord(), 'small');
const around = { use, shipped: null, goals: [] };
const fieldsOfProblems = (procedure: Procedure) =>
  procedureProblems(procedure).map(({ of, field }) => `${of} ${field}`);

describe('a new procedure', () => {
  it('is made of the rows that hold something, and can be stored', () => {
    const { procedure, errors } = newProcedureFromForm(graftForm(), shipped);
    expect(errors).toEqual([]);
    expect(procedureProblems(procedure)).toEqual([]);
    expect(procedure).toMatchObject({
      id: 'corneal-graft',
      origin: 'own',
      facts: [],
      synonyms: ['graft', 'keratoplasty'],
    });
    expect(procedure.steps.map(({ label, starts, ends }) => [label, starts, ends])).toEqual(graftRows);
    expect(procedure.waitingReasons.map(({ id }) => id)).toContain('hand-over');
  });
  it('takes facts of the eye only where asked', () => {
    const { procedure } = newProcedureFromForm(graftForm({ facts: ['yes'] }), shipped);
    expect(procedure.facts.map(({ id }) => id)).toContain('pupil');
  });
  it('names the field of every gap', () => {
    const fields = graftForm({ label: ['One', '', 'one'], starts: ['a', 'b', 'c'], ends: ['a', 'b', ''], name: [''] });
    expect(newProcedureFromForm(fields, shipped).errors.map(({ field }) => field)).toEqual([
      'name',
      'label-1',
      'label-2',
      'ends-2',
    ]);
    const none = newProcedureFromForm(graftForm({ label: [], starts: [], ends: [] }), shipped);
    expect(none.errors.map(({ field }) => field)).toEqual(['label-0']);
    const known = newProcedureFromForm(graftForm({ name: [shipped[0]?.name.toUpperCase() ?? ''] }), shipped);
    expect(known.errors[0]).toMatchObject({ field: 'name' });
  });
  it('offers more rows by a button, and keeps those that are there', () => {
    expect(stepRowsOffered({})).toBe(6);
    expect(stepRowsOffered({ label: Array.from({ length: 9 }, () => ''), more: ['rows'] })).toBe(12);
  });
});

describe('the form of a step', () => {
  const asFields = (over: Fields = {}): Fields => ({
    ...stepForm(smallProcedure, 'cortex', use, null).values,
    ...over,
  });

  it('stores a step unchanged as it was', () => {
    for (const procedure of shipped)
      for (const { id } of procedure.steps) {
        const { values } = stepForm(procedure, id, use, procedure);
        // A page sends its ticks from top to bottom, not in the order in which they are stored.
        const ticks = { earlier: [...(values.earlier ?? [])].reverse() };
        const after = stepFromForm({ ...values, ...ticks }, procedure, id, { ...around, shipped: procedure });
        expect(after.errors).toEqual([]);
        expect(new Set(after.procedure.steps.find((step) => step.id === id)?.synonyms)).toEqual(
          new Set(procedure.steps.find((step) => step.id === id)?.synonyms),
        );
        expect({ ...after.procedure, steps: after.procedure.steps.map((s) => ({ ...s, synonyms: [] })) }).toEqual({
          ...procedure,
          steps: procedure.steps.map((s) => ({ ...s, synonyms: [] })),
        });
      }
  });

  it('names every field that is wrong', () => {
    const { procedure } = stepFromForm(
      asFields({ label: ['Side port'], starts: [''], ends: [' '] }),
      smallProcedure,
      'cortex',
      around,
    );
    expect(fieldsOfProblems(procedure)).toEqual(['step starts', 'step ends', 'step label']);
  });

  it('keeps a label’s change apart from the id, so that timings stay with the step', () => {
    const { procedure, stepId } = stepFromForm(asFields({ label: ['I/A'] }), smallProcedure, 'cortex', around);
    expect([stepId, procedure.steps[2]?.label]).toEqual(['cortex', 'I/A']);
  });

  it('puts a new step where it was asked to stand, with an id of its own', () => {
    const fields = { label: ['Cortex'], starts: ['a'], ends: ['b'], after: ['side-port'] };
    const { procedure, stepId } = stepFromForm(fields, smallProcedure, null, around);
    expect([stepId, procedure.steps.findIndex(({ id }) => id === stepId)]).toEqual(['cortex-2', 1]);
    const first = stepFromForm({ ...fields, after: [''] }, smallProcedure, null, around);
    expect(first.procedure.steps[0]?.label).toBe('Cortex');
  });

  it('gives protected parts ids that stand once in the procedure, and drops only those nothing rests on', () => {
    const fields = asFields({ newPart: ['Refill', 'Refill', ''] });
    const { procedure } = stepFromForm(fields, smallProcedure, 'cortex', around);
    expect(procedure.steps[2]?.protectedParts.map(({ id }) => id)).toEqual(['refill-2', 'refill-3']);
    const seen = useOf(aRecord({ cases: [aCase(1, { protectedSeen: { refill: true } })] }), 'small');
    const gone = { ...stepForm(smallProcedure, 'capsulorhexis', use, null).values, partGone: ['refill'] };
    const parts = (counts: typeof use, as: Procedure | null) =>
      stepFromForm(gone, smallProcedure, 'capsulorhexis', { use: counts, shipped: as, goals: [] }).procedure.steps[1]
        ?.protectedParts.length;
    expect([parts(use, null), parts(seen, null), parts(use, smallProcedure)]).toEqual([0, 1, 1]);
  });

  it('never lifts "not to be shortened" from a step shipped with it', () => {
    const off = { ...stepForm(smallProcedure, 'wound-check', use, smallProcedure).values, notToShorten: [] };
    const under = (as: Procedure | null) =>
      stepFromForm(off, smallProcedure, 'wound-check', { ...around, shipped: as }).procedure.steps[3]?.notToShorten;
    expect([under(smallProcedure), under(null)]).toEqual([true, false]);
    expect(stepForm(smallProcedure, 'wound-check', use, smallProcedure).fixedNotToShorten).toBe(true);
  });

  it('refuses to make a step not to be shortened while a goal on its time is open', () => {
    const on = asFields({ notToShorten: ['yes'] });
    const errors = (goals: Parameters<typeof stepFromForm>[3]['goals']) =>
      stepFromForm(on, smallProcedure, 'cortex', { ...around, goals }).errors.map(({ field }) => field);
    expect(errors([aGoal(0, { stepId: 'cortex' })])).toEqual(['notToShorten']);
    expect(errors([aGoal(0, { stepId: 'cortex', state: 'closed' })])).toEqual([]);
    expect(errors([aGoal(0, { stepId: 'cortex', measure: 'safety' })])).toEqual([]);
  });

  it('names steps before it as those that can make it longer, nearest first', () => {
    expect(stepForm(smallProcedure, 'cortex', use, null).earlier.map(({ value }) => value)).toEqual([
      'capsulorhexis',
      'side-port',
    ]);
  });
});

describe('the form of a fact of the eye', () => {
  const cornea: Fields = {
    label: ['Cornea'],
    kind: ['choice'],
    asked: ['row'],
    newAnswer: ['clear', 'hazy', ''],
    newKey: ['c', 'h', ''],
    newNames: ['bright', '', ''],
  };
  const made = factFromForm(cornea, smallProcedure, null, use);

  it('makes a choice with one key an answer', () => {
    expect(made.factId).toBe('cornea');
    expect(made.procedure.facts.at(-1)).toEqual({
      id: 'cornea',
      label: 'Cornea',
      kind: 'choice',
      levels: [
        { id: 'clear', label: 'clear', key: 'C', synonyms: ['bright'] },
        { id: 'hazy', label: 'hazy', key: 'H' },
      ],
      synonyms: [],
      asked: 'row',
    });
    expect(procedureProblems(made.procedure)).toEqual([]);
  });
  it.each([
    ['two answers on one key', { newKey: ['C', 'c', ''] }, 'fact key-hazy'],
    ['an answer without a key', { newKey: ['C', '', ''] }, 'fact key-hazy'],
    ['one answer only', { newAnswer: ['clear'] }, 'fact newAnswer'],
    ['two answers of one name', { newAnswer: ['clear', 'Clear'] }, 'fact answer-clear-2'],
    ['a choice under anything else', { asked: ['more'] }, 'fact asked'],
    ['no name', { label: [''] }, 'fact label'],
  ])('refuses %s, naming the field', (_, over, field) => {
    expect(fieldsOfProblems(factFromForm({ ...cornea, ...over }, smallProcedure, null, use).procedure)).toContain(
      field,
    );
  });
  it('links what is wrong with a new answer to the line it was typed in', () => {
    const { procedure, renamed } = factFromForm({ ...cornea, newKey: ['C', '', ''] }, smallProcedure, null, use);
    expect(errorsOf(procedure, renamed).map(({ field }) => field)).toEqual(['newKey-1']);
  });
  it('refuses a letter that stands for another fact, and 0', () => {
    const yes = (key: string) =>
      factFromForm({ label: ['Thin'], kind: ['yes-no'], asked: ['more'], key: [key] }, smallProcedure, null, use);
    expect(fieldsOfProblems(yes('t').procedure)).toEqual(['fact key']);
    expect(fieldsOfProblems(yes('0').procedure)).toEqual(['fact key']);
    expect(fieldsOfProblems(yes('n').procedure)).toEqual([]);
  });
  it('stores every shipped fact unchanged as it was', () => {
    for (const procedure of shipped)
      for (const fact of procedure.facts) {
        const after = factFromForm(factForm(procedure, fact.id, use).values, procedure, fact.id, use);
        expect(after.procedure.facts.find(({ id }) => id === fact.id)).toEqual(fact);
      }
  });
  it('keeps kind, answers and the fact itself while cases have an answer', () => {
    const cases = [aCase(1, { facts: { nucleus: 'soft' } })];
    const entered = useOf(aRecord({ cases }), 'small');
    const values = factForm(smallProcedure, 'nucleus', entered).values;
    expect(factFromForm({ ...values, kind: ['number'] }, smallProcedure, 'nucleus', entered).errors[0]?.field).toBe(
      'kind',
    );
    const gone = factFromForm({ ...values, answerGone: ['soft', 'hard'] }, smallProcedure, 'nucleus', entered);
    expect(gone.procedure.facts[0]?.levels?.map(({ id }) => id)).toEqual(['soft']);
    expect(withoutFact(smallProcedure, 'nucleus', entered).facts[0]).toMatchObject({ id: 'nucleus', asked: 'file' });
    expect(withoutFact(smallProcedure, 'nucleus', use).facts.map(({ id }) => id)).not.toContain('nucleus');
  });
  it('stores every shipped fact’s answers with one key each', () => {
    for (const procedure of shipped) expect(procedureProblems(procedure)).toEqual([]);
  });
});

describe('waiting reasons and kinds of event', () => {
  it('are renamed, added and taken away, but never one that stands in a case', () => {
    const stretch = {
      stepId: null,
      start: null,
      end: null,
      seconds: 9,
      kind: 'waiting' as const,
      reason: 'lens-loading',
    };
    const noted = useOf(aRecord({ cases: [aCase(1, { stretches: [stretch] })] }), 'small');
    const fields = {
      ...wordsForm(smallProcedure, use).values,
      reasonGone: ['lens-loading'],
      eventGone: ['tear'],
      newReason: ['Donor tissue', ''],
      newNames: ['donor late', ''],
      newEvent: ['graft dislocated'],
    };
    expect(wordsFromForm(fields, smallProcedure, use).procedure.waitingReasons).toEqual([
      { id: 'donor-tissue', label: 'Donor tissue', synonyms: ['donor late'] },
    ]);
    const kept = wordsFromForm(fields, smallProcedure, noted).procedure;
    expect(kept.waitingReasons.map(({ id }) => id)).toEqual(['lens-loading', 'donor-tissue']);
    expect(kept.eventKinds).toEqual([{ id: 'graft-dislocated', label: 'graft dislocated' }]);
    const twice = wordsFromForm({ ...fields, reasonGone: [], newReason: ['LENS loading'] }, smallProcedure, use);
    expect(errorsOf(twice.procedure, twice.renamed).map(({ field }) => field)).toEqual(['newReason-0']);
    expect(fieldsOfProblems({ ...kept, eventKinds: [{ id: 'tear', label: '' }] })).toEqual(['event event-tear']);
  });
});

describe('the page of a procedure', () => {
  it('says what taking out does, what putting back keeps, and why an own procedure stays', () => {
    const own: Procedure = { ...smallProcedure, origin: 'own' };
    const view = procedureView(own, aRecord({ procedures: [own], cases: [aCase(1)] }), null, new Set());
    expect(view.origin).toBe('your own');
    expect(view.removal).toEqual({ able: false, why: 'The record holds 1 case of it, so it stays.' });
    expect(view.putBack).toBeNull();
    expect(view.steps[0]).toMatchObject({ taking: 'retire', timings: 'timed in 1 case', first: true });
    const changed = { ...smallProcedure, name: 'Mine' };
    const edited = procedureView(changed, aRecord({ procedures: [changed] }), smallProcedure, new Set(['cortex']));
    expect(edited).toMatchObject({ origin: 'shipped, with your changes', putBack: { keeps: [] }, removal: null });
    expect(edited.steps[2]?.guidance.words).toBe('checkpoints');
  });
});
