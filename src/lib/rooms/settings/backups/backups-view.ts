import { counted } from '../../../format';
import { wholeOf, type FieldError, type Fields } from '../../forms/fields';

/** What the store tells of backups. */
type Moment = { at: string; holds: readonly string[]; numbersOnly: boolean };
type Since = { added: number; changed: number; removed: number };
type File = { name: string; holds: string } & ({ since: Since } | { problem: string });

export type BackupsView = {
  moments: readonly { at: string; when: string; what: string; chosen: boolean }[];
  chosen: null | {
    at: string;
    when: string;
    files: readonly { name: string; holds: string; since: string; canComeBack: boolean }[];
    canComeBack: boolean;
  };
};

/**
 * @param when a moment (ISO) as it is written here, in the time of this computer
 * @param at the chosen moment, with what differs now from the record before it
 */
export function backupsView(
  moments: readonly Moment[],
  chosen: { at: string; files: readonly File[] } | null,
  when: (iso: string) => string,
): BackupsView {
  return {
    moments: moments.map((moment) => ({
      at: moment.at,
      when: when(moment.at),
      what: changedWords(moment),
      chosen: moment.at === chosen?.at,
    })),
    chosen: chosen && {
      at: chosen.at,
      when: when(chosen.at),
      files: chosen.files.map((file) => ({
        name: file.name,
        holds: file.holds,
        since: 'problem' in file ? file.problem : sinceWords(file.since, file.name),
        canComeBack: !('problem' in file),
      })),
      canComeBack: chosen.files.length > 0 && chosen.files.every((file) => !('problem' in file)),
    },
  };
}

/** What the change behind a backup was about. What is new has no backup: of it only the number it was given is seen. */
function changedWords({ holds, numbersOnly }: Moment): string {
  if (holds.length === 0) return '';
  if (numbersOnly)
    return 'When something new was given a number, such as a file that was looked at; nothing that stood here was changed';
  const files =
    holds.length > 3 ? `${holds.slice(0, 2).join('; ')}; and ${holds.length - 2} other files` : holds.join('; ');
  return `When something changed in ${files}`;
}

/** Documents that are one record: how many of it were changed says nothing. */
const SINGLE = ['profile', 'ledger'];

function sinceWords({ added, changed, removed }: Since, name: string): string {
  if (SINGLE.includes(name)) return 'changed since';
  const parts = [
    [added, 'added'],
    [changed, 'changed'],
    [removed, 'removed'],
  ] as const;
  return `${parts.flatMap(([count, what]) => (count > 0 ? [`${count} ${what}`] : [])).join(', ')} since`;
}

/** What was brought back, and what is left to say of it. */
export const broughtBackWords = (when: string, name: string | null): string =>
  `${name === null ? 'The record is' : `${name}.json is`} as it stood just before ${when}.`;

/** How long one backup a month stays: `months`. */
export function monthsFromForm(fields: Fields): { months: number; errors: FieldError[] } {
  const months = wholeOf(fields, 'months');
  if (typeof months === 'number' && months >= 1 && months <= 600) return { months, errors: [] };
  const message = 'Months: a whole number from 1 to 600.';
  return { months: 0, errors: [{ field: 'months', message }] };
}

export const monthsWords = (months: number): string => counted(months, 'month');

type SecondFolder = {
  folder: string | null;
  copiedAt: string | null;
  problem: string | null;
  toForget: number;
  encrypted: boolean;
  otherForm: number;
};

/** Where copies go, and how that goes, in sentences. */
export function secondFolderView(
  second: SecondFolder | null,
  when: (iso: string) => string,
): { folder: string; lines: string[]; encrypted: boolean } {
  if (!second) return { folder: '', lines: [], encrypted: false };
  const { folder, copiedAt, problem, toForget, encrypted, otherForm } = second;
  return {
    folder: folder ?? '',
    encrypted: encrypted && otherForm === 0,
    lines: [
      ...(problem === null ? [] : [problem]),
      copiedAt === null ? 'No copy has been made since this program was started.' : `Last copied on ${when(copiedAt)}.`,
      ...(otherForm === 0 ? [] : [otherFormWords(otherForm, encrypted)]),
      ...(toForget === 0
        ? []
        : [
            `${counted(toForget, 'erased case')} may still be in copies there. The next copy takes ${toForget === 1 ? 'it' : 'them'} out.`,
          ]),
    ],
  };
}

const otherFormWords = (count: number, encrypted: boolean): string =>
  encrypted
    ? `${counted(count, 'copy', 'copies')} there ${count === 1 ? 'is' : 'are'} not encrypted with the passphrase of today.`
    : `${counted(count, 'copy', 'copies')} there ${count === 1 ? 'is' : 'are'} still encrypted.`;
