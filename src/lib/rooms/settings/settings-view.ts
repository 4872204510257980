import type { Procedure, ReferenceSet, SurgeonRecord } from '../../model';
import { counted, inHundred } from '../../format';
import { textOf, wholeOf, type FieldError, type Fields } from '../forms/fields';
import { setNotUsedYet } from '../../words/packet';
import { instantWords } from '../forms/when-words';

/** What Settings needs of an import; the store's own record holds more. */
export type ImportLike = {
  id: string;
  fileName: string;
  at: string;
  added: readonly string[];
  replaced: readonly string[];
  referencesAdded: readonly string[];
  undone: boolean;
};

export type SettingsView = {
  procedureId: string;
  procedures: readonly {
    id: string;
    name: string;
    steps: readonly { label: string; starts: string; ends: string; marks: string }[];
    facts: string;
  }[];
  inTraining: '' | 'yes' | 'no';
  casesBefore: string;
  rate: { perHundred: string; source: string; own: boolean };
  references: readonly { id: string; label: string; words: string }[];
  imports: readonly { id: string; words: string; undone: boolean }[];
  recordingsConsent: string | null;
  cases: number;
  ownCases: number;
  invented: boolean;
  erased: string | null;
};

/** Imports listed: the latest, since too much rests on an older one for it to be undone. */
const IMPORTS_SHOWN = 20;

export function settingsView(
  record: SurgeonRecord,
  about: { imports: readonly ImportLike[]; erased: number | null; published: { rate: number; source: string } },
): SettingsView {
  const { profile, cases } = record;
  const { seriousRate } = profile;
  const rate = seriousRate ?? about.published;
  return {
    procedureId: profile.procedureId,
    procedures: record.procedures.map(procedureWords),
    inTraining: profile.inTraining === null ? '' : profile.inTraining ? 'yes' : 'no',
    casesBefore: String(profile.casesBefore[profile.procedureId] ?? ''),
    rate: { perHundred: inHundred(rate.rate), source: rate.source, own: seriousRate !== null },
    references: record.references.map((set) => ({ id: set.id, label: set.label, words: referenceWords(set, record) })),
    imports: [...about.imports]
      .reverse()
      .slice(0, IMPORTS_SHOWN)
      .map(({ id, undone, ...one }) => ({ id, undone, words: importWords(one) })),
    recordingsConsent: profile.recordingsConsentAt ? instantWords(profile.recordingsConsentAt) : null,
    cases: cases.length,
    ownCases: cases.filter(({ invented }) => !invented).length,
    invented: [...cases, ...record.goals, ...record.reflections, ...record.references].some((each) => each.invented),
    erased: erasedWords(about.erased),
  };
}

function procedureWords({ id, name, steps, facts }: Procedure): SettingsView['procedures'][number] {
  return {
    id,
    name,
    steps: steps.map((step) => ({
      label: step.label,
      starts: step.starts,
      ends: step.ends,
      marks: [
        ...(step.notToShorten ? ['not to shorten'] : []),
        ...(step.optional ? ['optional'] : []),
        ...(step.mergeOf ? ['in place of its parts, timed as one'] : []),
        ...step.protectedParts.map(({ label }) => `protected part: ${label.charAt(0).toLowerCase()}${label.slice(1)}`),
        ...(step.retired ? ['retired'] : []),
      ].join('; '),
    })),
    facts: facts
      .filter(({ asked }) => asked !== 'file')
      .map(({ label }) => label)
      .join(', '),
  };
}

function referenceWords({ cases, procedureId, agreedAt }: ReferenceSet, record: SurgeonRecord): string {
  const readers = new Set(cases.map(({ reader }) => reader)).size;
  const name = record.procedures.find(({ id }) => id === procedureId)?.name ?? procedureId;
  return `${counted(cases.length, 'case')} of ${counted(readers, 'surgeon')}, ${name}; they agreed, confirmed on ${instantWords(agreedAt)}.${setNotUsedYet(cases.length)}`;
}

function importWords({ fileName, at, added, replaced, referencesAdded }: Omit<ImportLike, 'id' | 'undone'>): string {
  const what = [
    counted(added.length, 'case'),
    ...(replaced.length > 0 ? [`${replaced.length} replaced`] : []),
    ...(referencesAdded.length > 0 ? [counted(referencesAdded.length, 'reference set')] : []),
  ].join(', ');
  return `${instantWords(at)}, ${fileName}: ${what}`;
}

/** What the form of circumstances shows of the settings. */
export const circumstancesOf = ({ procedureId, inTraining, casesBefore }: SurgeonRecord['profile']) => ({
  procedureId,
  inTraining,
  casesBefore,
});

export function circumstanceWords(
  { procedureId, inTraining, casesBefore }: SurgeonRecord['profile'],
  procedures: readonly Procedure[],
): string {
  const name = procedures.find(({ id }) => id === procedureId)?.name ?? procedureId;
  const training = inTraining === null ? 'training not said' : inTraining ? 'in training' : 'not in training';
  return `${name}; ${training}; ${casesBefore[procedureId] ?? 'not said how many'} operations before this record`;
}

export const rateWords = ({ seriousRate }: SurgeonRecord['profile']): string =>
  seriousRate ? `${inHundred(seriousRate.rate)} in 100, from ${seriousRate.source}` : 'the published rate';

/** The rate set for the safety monitor: `rate` in 100 operations, with its `source`. Both or neither. */
export function rateFromForm(fields: Fields): {
  rate: { rate: number; source: string } | null;
  errors: FieldError[];
} {
  const text = textOf(fields, 'rate');
  const source = textOf(fields, 'source');
  if (text === '' && source === '') return { rate: null, errors: [] };
  const perHundred = /^\d{1,2}([.,]\d{1,4})?$/.test(text) ? Number(text.replace(',', '.')) : NaN;
  const errors: FieldError[] = [];
  if (!(perHundred > 0 && perHundred <= 50))
    errors.push({
      field: 'rate',
      message: 'Rate: a number of serious events in 100 operations, above 0 and up to 50.',
    });
  if (source === '')
    errors.push({ field: 'source', message: 'Source: say where the rate comes from, so that it can be checked.' });
  return { rate: errors.length === 0 ? { rate: perHundred / 100, source } : null, errors };
}

/** The surgeon's own circumstances: `procedureId`, `inTraining`, `casesBefore`. */
export function profileFromForm(
  fields: Fields,
  record: Pick<SurgeonRecord, 'profile' | 'procedures'>,
): { profile: SurgeonRecord['profile']; errors: FieldError[] } {
  const procedureId = textOf(fields, 'procedureId');
  const training = textOf(fields, 'inTraining');
  const before = wholeOf(fields, 'casesBefore');
  const errors: FieldError[] = [];
  if (!record.procedures.some(({ id }) => id === procedureId))
    errors.push({ field: 'procedureId', message: 'Choose one of the procedures.' });
  if (before === undefined)
    errors.push({ field: 'casesBefore', message: 'Operations before this record: a whole number, or empty.' });
  const { [procedureId]: _, ...others } = record.profile.casesBefore;
  return {
    errors,
    profile: {
      ...record.profile,
      procedureId,
      inTraining: training === '' ? null : training === 'yes',
      casesBefore: typeof before === 'number' ? { ...others, [procedureId]: before } : others,
    },
  };
}

const erasedWords = (count: number | null): string | null => {
  if (count === null) return 'How many were erased so far cannot be read.';
  return count === 0 ? null : `${counted(count, 'case')} erased everywhere so far.`;
};
