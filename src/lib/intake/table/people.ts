import { plainWords } from '../labels/plain-words';
import { intakeThresholds } from '../thresholds';

/** Headings of columns that point to a person. Nothing under them is read. */
const PERSON_HEADING =
  /^((patients?|pt|px)( (id|no|nr|number|name|names|initials|identifier|code|ref))?|(last |first |full |sur|fore|family |given )?names?|initials|(date of )?birth(day| date| day)?( date)?|dob|born|mrn|urn|nhs( (no|number))?|(hospital|hosp|chart|file|folder|record|registration|national|insurance|social security)( (id|no|nr|number))|medical record( (no|number))?|ssn|address|street|post ?code|zip( code)?|(tele)?phone( (no|number))?|mobile|e ?mail)$/;

export const headingPointsToAPerson = (heading: string): boolean => PERSON_HEADING.test(plainWords(heading));

/** Headings that do not name a person but are not kept either: they say too much about who it was. */
const NOT_KEPT = /^(age|sex|gender|eye|laterality|side|os od|od os|ethnicity|race)$/;

export const headingIsNotKept = (heading: string): boolean => NOT_KEPT.test(plainWords(heading));

const TITLE = /\b(mr|mrs|ms|miss|dr|prof|professor|sir|herr|frau|sra?|mme)\b\.? +\p{Lu}/iu;
const TWO_NAMES = /^\p{Lu}[\p{L}'’-]{2,},? +\p{Lu}[\p{L}'’-]{2,}$/u;
// No second @: "a@a@a…" would be searched from every sign of it to the end.
const MAIL = /\S@[^\s@]+\.\S/;
const LONG_DATE = /\b\d{1,2}[./-]\d{1,2}[./-](19|20)\d\d\b|\b(19|20)\d\d[./-]\d{1,2}[./-]\d{1,2}\b/;

/** Ten digits in three groups, as the numbers of some health services are written. */
const GROUPED = /\b\d{3}[ -]\d{3}[ -]\d{4}\b/;

const longNumber = (text: string): boolean =>
  GROUPED.test(text) ||
  (text.match(/\d+/g) ?? []).some((digits) => digits.replace(/^0+/, '').length >= intakeThresholds.hospitalDigits);

/** Could this code of a case lead to a patient: a hospital's long number, a name, a birth date? */
export function codePointsToAPatient(code: string): boolean {
  return longNumber(code) || TWO_NAMES.test(code) || TITLE.test(code) || MAIL.test(code) || LONG_DATE.test(code);
}

/** Does free text look as if it named somebody? A careful guess, for a warning: it misses much. */
export function textPointsToAPerson(text: string): boolean {
  return TITLE.test(text) || MAIL.test(text) || longNumber(text) || TWO_NAMES.test(text.trim());
}
