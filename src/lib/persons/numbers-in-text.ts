/** A digit of any script as ours; other signs as they are. In each script the ten stand in a row. */
function ourDigit(sign: string): string {
  const plain = sign.normalize('NFKC');
  if (!/^\p{Nd}$/u.test(plain) || plain <= '9') return plain.length === 1 ? plain : sign;
  const code = plain.codePointAt(0) ?? 0;
  let zero = code;
  while (code - zero < 9 && /\p{Nd}/u.test(String.fromCodePoint(zero - 1))) zero -= 1;
  return String(code - zero);
}

/** What such numbers are called where they are written; from memory, in the languages of the files. */
const CALLED = String.raw`(?:mrn|nhs|nhc|uhid|ipp|nip|opd|ipd|crn|prontuario|prontuário|expediente|cartella|dossier|historia(?:\s+cl[ií]nica)?|hosp(?:ital)?|akten(?:zeichen|nummer)?|fall(?:nummer)?|patienten(?:nummer)?|fallnr)`;
/** Words that need "no" beside them, or a longer number: "record 12" is none. */
const MAYBE = String.raw`(?:patients?|pt|pat|record|folder|file|chart|reg|regn|cr|ip|op|registration|insurance|policy)`;
const NO = String.raw`(?:no|nr|number|num|id|n[°ºo]|№|#)`;

const PATTERNS: readonly RegExp[] = [
  new RegExp(String.raw`(?<![\p{L}\d])${CALLED}[\s.:#°ºn-]*(?:${NO}[\s.:]*)?[A-Z]{0,3}\d{3,}(?:[/-]\d+)?`, 'iu'),
  new RegExp(String.raw`(?<![\p{L}\d])${MAYBE}[\s.-]*${NO}[\s.:]*[A-Z]{0,3}\d{3,}(?:[/-]\d+)?`, 'iu'),
  new RegExp(String.raw`(?<![\p{L}\d])${MAYBE}\s*:?\s*[A-Z]{0,3}\d{5,}`, 'iu'),
  // In three groups, as some health services write them; in threes of four, as identity cards do.
  /(?<![\d.,-])\d{3}[\s-]?\d{3}[\s-]?\d{4}(?![\d.,-]\d)/,
  /(?<![\d.,-])\d{4} \d{4} \d{4}(?!\d)/,
  // Telephones.
  /\+\d{1,3}[\s-]?\d{2,5}[\s-]?\d{3,}/,
  /\(0\d{2,5}\)\s?\d{3,}/,
  /(?<![\p{L}\d.,])[A-Z]{0,3}\d{6,}[A-Z]?(?![\d.,]\d)/u,
  /(?<![\p{L}\d])[A-Z]\d{1,3}-\d{5,}/u,
];

/**
 * The first bit of a text, as written, that has the shape of a number by which a hospital, an insurer or a telephone knows
 * somebody; digits of every script count.
 */
export function recordNumberIn(text: string): string | null {
  const starts: number[] = [];
  let [read, at] = ['', 0];
  for (const sign of text) {
    const ours = ourDigit(sign);
    for (let unit = 0; unit < ours.length; unit += 1) starts.push(at + Math.min(unit, sign.length - 1));
    read += ours;
    at += sign.length;
  }
  starts.push(at);
  for (const pattern of PATTERNS) {
    const match = pattern.exec(read);
    if (match) return text.slice(starts[match.index], starts[match.index + match[0].length]).trim();
  }
  return null;
}
