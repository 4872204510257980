import { named, plainWords } from '../labels/plain-words';

/**
 * "None" as people write it under a column of events, in English, German, French, Spanish, Italian, Portuguese and Hindi in
 * Latin letters; without accents. From memory, not from a published list.
 */
const NONE = new Set([
  ...named(`none, no, nil, nothing, zero, uneventful, uncomplicated, unremarkable, without, none seen, none noted,
    nothing noted, nil of note, nad`),
  ...named(`kein, keine, keiner, keines, keins, ohne, nein, nichts, o b, ohne befund, komplikationslos, unkompliziert,
    unauffallig, ereignislos`),
  ...named(`aucun, aucune, neant, non, rien, sans, ras, r a s, rien a signaler, sans particularite, sans incident`),
  ...named(`ninguno, ninguna, ningun, nada, sin, sin incidencias, sin incidentes, sin novedad, sin eventos, no hubo`),
  ...named(`nessuno, nessuna, nessun, niente, nulla, senza, nessun evento, senza eventi`),
  ...named(`nenhum, nenhuma, nao, sem, sem intercorrencias, sem eventos, nenhum evento, nao houve`),
  ...named(`nahi, nahin, nahi hai, nahin hai, koi nahi, koi nahin, kuch nahi, kuch nahin, nahi hua, nahi hui`),
]);

/** "no complications", "keine Komplikationen", "sans complication", "sin complicaciones", "senza complicanze" … */
const NO_EVENTS =
  /^(no|none|nil|without|any|kein|keine|keinerlei|ohne|pas de|aucun|aucune|sans|sin|ninguna?|no hubo|senza|nessun|nessuna|sem|nenhum|nenhuma|nao houve|koi|kuch) (events?|complications?|problems?|issues?|komplikation(en)?|ereignis(se)?|probleme?|evenements?|incidents?|complicacion(es)?|complicanz[ae]|complicazion[ei]|complicacao|complicacoes|intercorrencias?|eventos?|eventi)( (nahi|nahin))?$/;

/** Does this cell say in words that there was none? A dash and an empty cell say nothing in words. */
export function saysNone(text: string): boolean {
  const words = plainWords(text);
  return NONE.has(words) || NO_EVENTS.test(words);
}
