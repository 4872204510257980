import { describe, expect, it } from 'vitest';
import { profileFromForm, rateFromForm, settingsView } from '../../../src/lib/rooms/settings/settings-view';
import { aCase, aRecord } from '../../made-up/record';

const about = { imports: [], erased: 0, published: { rate: 0.0101, source: 'published' } };
const fields = (over: Record<string, string>) =>
  Object.fromEntries(Object.entries(over).map(([name, text]) => [name, [text]]));

describe('Settings', () => {
  it('tells the published rate until the surgeon sets another', () => {
    expect(settingsView(aRecord(), about).rate).toEqual({ perHundred: '1', source: 'published', own: false });
    const record = aRecord();
    const own = { ...record, profile: { ...record.profile, seriousRate: { rate: 0.02, source: 'our unit 2025' } } };
    expect(settingsView(own, about).rate).toEqual({ perHundred: '2', source: 'our unit 2025', own: true });
  });

  it('counts own and invented cases apart', () => {
    const view = settingsView(aRecord({ cases: [aCase(1, { invented: true }), aCase(2)] }), about);
    expect(view).toMatchObject({ cases: 2, ownCases: 1, invented: true });
  });

  it('lists imports newest first, with what each brought', () => {
    const one = (id: string, at: string) => ({
      id,
      fileName: 'times.csv',
      at,
      added: ['case-1', 'case-2'],
      replaced: ['case-9'],
      referencesAdded: [],
      undone: false,
    });
    const imports = [one('import-1', '2026-01-05T00:00:00Z'), one('import-2', '2026-02-05T00:00:00Z')];
    const view = settingsView(aRecord(), { ...about, imports });
    expect(view.imports.map(({ id }) => id)).toEqual(['import-2', 'import-1']);
    expect(view.imports[0]?.words).toBe('5 February 2026, times.csv: 2 cases, 1 replaced');
  });

  it('tells how many surgeons a reference set holds, and that they agreed', () => {
    const cases = [1, 2, 3].map((n) => ({
      reader: `R${(n % 2) + 1}`,
      list: n,
      facts: {},
      stepSeconds: { cortex: 40 },
    }));
    const references = [
      {
        id: 'reference-1',
        label: 'Our unit',
        procedureId: 'small',
        agreedAt: '2026-01-05T00:00:00Z',
        cases,
        invented: false,
      },
    ];
    expect(settingsView(aRecord({ references }), about).references[0]?.words).toBe(
      '3 cases of 2 surgeons, Small operation; they agreed, confirmed on 5 January 2026. Not used yet: a reference set needs at least 10 cases (7 more).',
    );
  });
});

describe('the rate of serious events', () => {
  it('is a number in 100 with its source, decimal comma too', () => {
    expect(rateFromForm(fields({ rate: '1,5', source: 'our unit' }))).toEqual({
      rate: { rate: 0.015, source: 'our unit' },
      errors: [],
    });
  });
  it.each(['0', '60', '1e3', 'one', ''])('refuses %j with a source beside it', (rate) => {
    expect(rateFromForm(fields({ rate, source: 'our unit' })).errors[0]?.field).toBe('rate');
  });
  it('refuses a rate without a source', () => {
    expect(rateFromForm(fields({ rate: '2', source: '' })).errors[0]?.field).toBe('source');
  });
  it('goes back to the published one when both are empty', () => {
    expect(rateFromForm(fields({ rate: '', source: '' }))).toEqual({ rate: null, errors: [] });
  });
});

describe('own circumstances', () => {
  it('keeps "not said" apart from no', () => {
    const of = (inTraining: string) =>
      profileFromForm(fields({ procedureId: 'small', inTraining }), aRecord()).profile.inTraining;
    expect([of(''), of('yes'), of('no')]).toEqual([null, true, false]);
  });
  it('an empty number of earlier operations is not said, never 0', () => {
    const record = aRecord();
    const said = { ...record, profile: { ...record.profile, casesBefore: { small: 40 } } };
    const { profile } = profileFromForm(fields({ procedureId: 'small', casesBefore: '' }), said);
    expect(profile.casesBefore).toEqual({});
  });
  it('refuses an unknown procedure and half an operation', () => {
    const { errors } = profileFromForm(fields({ procedureId: 'none', casesBefore: '2.5' }), aRecord());
    expect(errors.map(({ field }) => field)).toEqual(['procedureId', 'casesBefore']);
  });
});
