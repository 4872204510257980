import type { AuditReading, Mapping, TakenOut } from '../../intake';
import type { ListRecord } from '../../model';
import { capital, counted, listed } from '../../format';
import { keepsNew, whoseIsOpen, type ImportPlan } from './import-plan';
import { listTitle } from '../forms/when-words';
import { rowWords } from './problem-lines';

type Choices = Readonly<Record<string, string>>;

/**
 * Rows and cases are counted separately: one case may have many rows, and a case already here as it stands is not taken
 * again.
 */
export function accountWords(reading: AuditReading, plan: ImportPlan): string[] {
  if (plan.whose === 'reference' || reading.rowsTaken === 0) return [];
  const [added, changed] = [plan.cases.length, plan.replace.length];
  const some = (n: number, what: string) => (n > 0 ? [counted(n, what, what)] : []);
  const parts = [
    ...some(added, 'new'),
    ...some(changed, 'to be filled in or replaced'),
    ...some(reading.cases.length - added - changed, 'unchanged'),
    ...some(reading.references.length, 'of other surgeons'),
  ];
  const cases = counted(reading.cases.length + reading.references.length, 'case');
  const rows = capital(counted(reading.rowsTaken, 'good row'));
  return [`${rows} ${reading.rowsTaken === 1 ? 'makes' : 'make'} ${cases}: ${listed(parts)}.`];
}

/** Events that come in as reviewed though nobody can read here what was written. */
export function reviewedWords({ cases }: ImportPlan): string[] {
  const events = cases.flatMap((one) => one.events ?? []).filter(({ reviewed }) => reviewed?.text === null);
  if (events.length === 0) return [];
  return [
    `${capital(counted(events.length, 'event'))} ${events.length === 1 ? 'was' : 'were'} reviewed where this file comes from; the text of the review is not in it.`,
  ];
}

/** What was taken out of a file before it was held; `null` where nothing was. */
export function takenOutWords({ columns, rows, codes }: TakenOut): string | null {
  const parts = [
    ...(columns.length > 0 ? [`everything under ${listed(columns.map((heading) => `"${heading}"`))}`] : []),
    ...(rows.length > 0 ? [`what looks like a person in ${rowWords(rows)}`] : []),
    ...(codes ? ['the codes of the cases, which look like a patient’s'] : []),
  ];
  if (parts.length === 0) return null;
  return `Taken out before this file was kept for you to look at: ${listed(parts)}. “…” stands in its place.`;
}

/** Columns of which nothing is left hold nothing to choose. */
export const withoutTaken = (columns: readonly Mapping[], { columns: gone }: TakenOut): Mapping[] =>
  columns.map((column) =>
    gone.includes(column.from) ? { ...column, options: [{ value: column.value, label: column.to }] } : column,
  );

/** Where the cases of a list sheet will stand. */
export function landsWords({ lists, cases }: ImportPlan, inRecord: readonly ListRecord[]): string[] {
  return lists.flatMap(({ key, there }) => {
    const list = inRecord.find(({ id }) => id === there);
    const coming = cases.filter((one) => one.list === key).length;
    if (!list || coming === 0) return [];
    return [
      `${capital(counted(coming, 'new case'))} ${coming === 1 ? 'goes' : 'go'} to a list of the record: ${listTitle(list)}.`,
    ];
  });
}

/**
 * What holds of a file whose very text was taken in before: cases erased since then are no longer known, and would come
 * again; values changed since then differ.
 *
 * @param at the moment of it, in words
 */
export function againWords(at: string, reading: AuditReading, plan: ImportPlan): string {
  const taken = `This same file was taken in on ${at}.`;
  const fresh = plan.whose === 'me' ? plan.cases.length : 0;
  const differ = reading.known.filter(({ same }) => !same).length;
  if (fresh > 0)
    return `${taken} ${capital(counted(fresh, 'case'))} of it ${fresh === 1 ? 'is' : 'are'} not in the record now: erased since, or left out then. Taking the file again brings ${fresh === 1 ? 'it' : 'them'} in.`;
  if (differ > 0)
    return `${taken} ${capital(counted(differ, 'case'))} of it ${differ === 1 ? 'stands' : 'stand'} in the record with other values now.`;
  return plan.nothing ? `${taken} Taking it again changes nothing.` : taken;
}

/** The words of the button, counted as `takenWords` counts afterwards; `null` where nothing can be taken, and why. */
export function takeWords(
  reading: AuditReading,
  plan: ImportPlan,
  choices: Choices,
): { take: string | null; whyNot: string | null } {
  const whyNot = whyNothing(reading, plan, choices);
  if (whyNot !== null) return { take: null, whyNot };
  const does = [
    ...(plan.cases.length > 0 ? [`take ${counted(plan.cases.length, 'case')}`] : []),
    ...(plan.replace.length > 0 ? [`fill in or replace ${counted(plan.replace.length, 'case')} of the record`] : []),
    ...(plan.reference ? ['keep 1 reference set'] : []),
  ];
  const named = reading.rowsNamed;
  const out = named === 0 ? '' : `; ${counted(named, 'row')} named above ${named === 1 ? 'stays' : 'stay'} out`;
  return { take: `${capital(listed(does))}${out}`, whyNot: null };
}

function whyNothing(reading: AuditReading, plan: ImportPlan, choices: Choices): string | null {
  const waiting = reading.questions.filter(({ mustAnswer, answered }) => mustAnswer && !answered).length;
  if (waiting > 0) return `${capital(counted(waiting, 'question'))} above must be answered before anything is taken.`;
  if (whoseIsOpen(reading) && !choices['whose']) return 'Say first whose times these are.';
  if (plan.nothing) {
    const all = reading.known.length === reading.cases.length && (reading.known.length > 0 || plan.referenceKept);
    const old = reading.known.filter((one) => one.conflicts && !one.closed && !keepsNew(choices, one)).length;
    if (all && old > 0)
      return `There is nothing new to take: every case of this file is in the record already, ${counted(old, 'case')} of them with other values, which stay unless you take the new ones.`;
    return all
      ? 'There is nothing new to take: every case of this file is in the record already.'
      : 'Nothing in it can be taken. This page says what is wrong, and what to do.';
  }
  return plan.whose === 'reference' && choices['agreed'] !== 'yes'
    ? 'Say first that the surgeons agreed: without that their times are not kept.'
    : null;
}

/** What an import that was confirmed has done. */
export function takenWords({
  added,
  changed,
  references,
}: {
  added: number;
  changed: number;
  references: number;
}): string {
  const said = [
    ...(added > 0 ? [`${counted(added, 'case')} ${added === 1 ? 'was' : 'were'} taken`] : []),
    ...(changed > 0
      ? [`${counted(changed, 'case')} of the record ${changed === 1 ? 'was' : 'were'} filled in or replaced`]
      : []),
    ...(references > 0 ? [`${counted(references, 'reference set')} ${references === 1 ? 'was' : 'were'} kept`] : []),
  ];
  return said.length === 0 ? 'Nothing was taken.' : `${capital(listed(said))}.`;
}
