import { nameIn, personIn, recordNumberIn } from '../../persons';
import { named, plainWords } from '../labels/plain-words';
import { intakeThresholds } from '../thresholds';

/** Headings of columns that point to a person. Nothing under them is read. */
const PERSON_HEADING =
  /^((patients?|pt|px)( (id|no|nr|number|name|names|initials|identifier|code|ref))?|(last |first |full |sur|fore|family |given )?names?|initials|(date of )?birth(day| date| day)?( date)?|dob|born|mrn|urn|nhs( (no|number))?|(hospital|hosp|chart|file|folder|record|registration|national|insurance|social security)( (id|no|nr|number))|medical record( (no|number))?|ssn|address|street|post ?code|zip( code)?|(tele)?phone( (no|number))?|mobile|e ?mail)$/;

/** The same in German, French, Spanish, Italian, Portuguese and Hindi in Latin letters, without accents (from memory). */
const PERSON_HEADINGS = new Set(
  named(`vorname, nachname, familienname, name des patienten, patientenname, name patient, patientin, patienten,
    patientennummer, patienten nr, patientennr, pat nr, pat name, pat id, geburtsdatum, geburtstag, geb datum, geb,
    geboren, versichertennummer, aktenzeichen, adresse, anschrift, telefon, nom, prenom, nom du patient, nom patient,
    patiente, date de naissance, naissance, ne le, ddn, ipp, nip, numero de dossier, dossier, telephone, nombre,
    apellido, apellidos, nombre del paciente, paciente, fecha de nacimiento, nacimiento, historia clinica, nhc,
    expediente, direccion, telefono, nome, cognome, nome del paziente, paziente, data di nascita, nascita,
    codice fiscale, cartella clinica, cartella, indirizzo, nome do paciente, sobrenome, data de nascimento,
    nascimento, prontuario, endereco, telefone, naam, mareez, mareez ka naam, janm tithi, janam tithi`),
);

export const headingPointsToAPerson = (heading: string): boolean =>
  PERSON_HEADING.test(plainWords(heading)) || PERSON_HEADINGS.has(plainWords(heading));

/** Headings that do not name a person but are not kept either: they say too much about who it was. */
const NOT_KEPT =
  /^(age|sex|gender|eye|laterality|side|os od|od os|ethnicity|race|alter|geschlecht|auge|seite|sexe|oeil|edad|sexo|ojo|eta|sesso|occhio|idade|olho|umr|ling)$/;

export const headingIsNotKept = (heading: string): boolean => NOT_KEPT.test(plainWords(heading));

/** A day of birth: a full date of the years in which people who have cataracts were born. A day of this decade is a list's. */
const BORN = /\b\d{1,2}[./-]\d{1,2}[./-](19\d\d|200\d|201[0-4])\b|\b(19\d\d|200\d|201[0-4])[./-]\d{1,2}[./-]\d{1,2}\b/;
// No second @: "a@a@a…" would be searched from every sign of it to the end.
const MAIL = /\S@[^\s@]+\.\S/;

/** Zeros in front only fill up: "000123" is one's own. */
const withoutZeros = (code: string): string => code.replace(/(?<!\d)0+(?=\d)/g, '');

const longNumber = (code: string): boolean =>
  (withoutZeros(code).match(/\d+/g) ?? []).some((digits) => digits.length >= intakeThresholds.hospitalDigits);

/** Could this code of a case lead to a patient: a hospital's long number, a name, a birth date? */
export function codePointsToAPatient(code: string): boolean {
  const plain = withoutZeros(code);
  return (
    longNumber(code) || recordNumberIn(plain) !== null || nameIn(code) !== null || MAIL.test(code) || BORN.test(code)
  );
}

/** Does free text look as if it named somebody? A careful guess, for a warning: it misses much. */
export const textPointsToAPerson = (text: string): boolean => personIn(text, 'label').length > 0;
