import { named, plainWords } from '../labels/plain-words';

const YES = new Set(named(`yes, y, true, 1, x, +, ++, ja, j, vorhanden, oui, si, sim, haan, haa, present, done, seen`));
const NO = new Set(
  named(`no, n, false, 0, none, nein, non, nao, absent, not done, not seen, nil, kein, keine, nicht, aucun, aucune,
    ninguno, ninguna, nessuno, nessuna, nenhum, nenhuma, nahi, nahin`),
);
const NOT_ENTERED = new Set(['', 'n a', 'na', 'nk', 'unknown', 'not known', 'not entered', 'not recorded', 'missing']);

/** `null`: not entered, which is not "no". `undefined`: something else stands there. */
export function yesNo(text: string): boolean | null | undefined {
  if (/^[✓✔☑]$/u.test(text.trim())) return true;
  const words = plainWords(text);
  if (NOT_ENTERED.has(words)) return null;
  if (YES.has(words)) return true;
  return NO.has(words) ? false : undefined;
}
