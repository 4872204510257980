/**
 * What in a free text looks like a person or could point to one: a warning before saving, never a refusal,
 * since only the writer can tell. Returns each bit with what it looks like, at most once a kind.
 */
export function personIn(text: string): { bit: string; looksLike: string }[] {
  return KINDS.flatMap(({ looksLike, patterns }) => {
    const match = patterns.map((pattern) => pattern.exec(text)).find((each) => each !== null);
    return match ? [{ bit: match[0].trim(), looksLike }] : [];
  });
}

const MONTH =
  '(?:jan(?:uary)?|feb(?:ruary)?|mar(?:ch)?|apr(?:il)?|may|june?|july?|aug(?:ust)?|sep(?:t(?:ember)?)?|oct(?:ober)?|nov(?:ember)?|dec(?:ember)?)';

const KINDS: readonly { looksLike: string; patterns: readonly RegExp[] }[] = [
  {
    looksLike: 'a date',
    patterns: [
      /\b\d{4}-\d{2}-\d{2}\b/,
      /\b\d{1,2}[./]\d{1,2}[./]\d{2,4}\b/,
      new RegExp(String.raw`\b\d{1,2}(?:st|nd|rd|th)?\s+(?:of\s+)?${MONTH}\b`, 'i'),
      new RegExp(String.raw`\b${MONTH}\s+\d{1,2}(?:st|nd|rd|th)?\b(?!\s*(?:cases|lists|eyes))`, 'i'),
    ],
  },
  {
    looksLike: 'an age',
    patterns: [/\b\d{2,3}[\s-]*(?:years?|yrs?)[\s-]*old\b/i, /\baged?\s+\d{2,3}\b/i, /\b\d{2,3}\s?y\/?o\b/i],
  },
  {
    looksLike: 'a name',
    patterns: [/\b(?:Mr|Mrs|Ms|Miss|Dr|Prof|Professor|Sister|Nurse)\.?\s+\p{Lu}[\p{L}'-]+/u],
  },
  {
    looksLike: 'a number that could be a patient’s',
    patterns: [
      /\b(?:mrn|nhs|hospital|patient|record)\s*(?:no\.?|number|id|#)?\s*:?\s*[a-z]*\d{3,}/i,
      /\b\d{3}[\s-]?\d{3}[\s-]?\d{4}\b/,
      /\b[A-Z]{0,3}\d{6,}\b/,
    ],
  },
  { looksLike: 'an address', patterns: [/[\w.+-]+@[\w-]+\.\w+/] },
];
