import { isPlainWord } from './plain-words';

/**
 * Titles that stand before a name and mean little else, in the languages in which people write their files; any case.
 * From memory. `Dr.` and its like may be followed by further ones ("Prof. Dr.").
 */
const TITLES = `mr mrs ms dr dres prof professor herr frau mme mlle monsieur madame mademoiselle sra srta señora señor señorita
  senora senor sig sig.ra signora signor signorina dott dott.ssa dottor dottoressa dra doutor doutora shri shree shrimati
  smt kumari mevrouw mevr dhr meneer fröken froken rouva herra begum janab alhaji hajiya encik puan pani paní gospodin
  gospođa gospodja kyrios kyria sayın sayin doña señores docteur doctor dr.med`;

/** Titles and callings that are words of their own too: only where they and the next word have capitals, or the next alone. */
const CALLINGS = `miss sister nurse sir lady lord rev reverend father brother hr fr m pr sr sra oa oberarzt oberärztin chefarzt schwester
  pfleger don dona seu suor enfermera enfermero enfermeira infermiera infirmière sardar mataji babu pan bà ông anh chị
  khun pak bu ibu sheikh sheikha haji hajji ustadh umm abu agha aga khanom khanum oga chief mama mzee baba ato weizero
  whaea matua tía tío tia tio fru rabbi imam swami ostad hoca ustad mullah maulana`;

/** Where a name stands in a sentence: the next word with a capital is one, unless it is plain. */
const PLACES = `patient patientin patiente paciente paziente mareez patient's named called name name's is names by with assistant trainee fellow
  registrar consultant supervisor anaesthetist anesthetist colleague surgeon nurse asked told to as from resident intern
  teacher mentor boss trainer technician optometrist kollege kollegin von durch collègue collega colega`;

const oneOf = (written: string): ReadonlySet<string> => new Set(written.split(/\s+/).filter(Boolean));
const titles = oneOf(TITLES);
const callings = oneOf(CALLINGS);
const places = oneOf(PLACES);

/** Between the parts of a name. */
const particles = oneOf(
  'van von der den de del della di da dos das do du la le los al el bin binti ibn bint ben e y st',
);
const AFTER_NAMES = oneOf(
  'ji san sensei ssi bey hanım hanim saab sahib saheb efendi sama kun chan abi abla amca teyze ajarn',
);

/** Titles of scripts that know no capitals, before and after the name. */
const OTHER_SCRIPTS = [
  /[\p{Script=Han}]{1,4}(?:先生|女士|小姐|太太|医生|醫生|医師|护士|さん|様|氏|先輩)/u,
  /[\p{Script=Hiragana}\p{Script=Katakana}]{2,8}(?:さん|様|先生)/u,
  /[\p{Script=Hangul}]{2,4}\s?(?:씨|님|선생)/u,
  /(?:السيدة|السيد|الدكتورة|الدكتور|الحاجة|الحاج|الشيخ|آقای|خانم)\s+[\p{Script=Arabic}]+/u,
  /(?:श्रीमती|श्री|डॉ\.?|कुमारी|सुश्री|बेगम)\s+[\p{Script=Devanagari}\p{M}]+/u,
  /(?:Госпожа|Господин|Доктор|госпожа|господин|пан|пані|др\.)\s+\p{Lu}\p{L}+/u,
  /\p{Lu}\p{L}+\s+\p{Lu}\p{L}+(?:вич|вна|ична)(?!\p{L})/u,
];

/** Titles, initials or particles in a row; a text made of nothing else must not be searched from each to the end. */
const MOST_PARTS = 6;

type Word = { text: string; bare: string; at: number; end: number };

const WORD = /\p{L}[\p{L}\p{M}'’.-]*/gu;

function wordsOf(text: string): Word[] {
  return [...text.matchAll(WORD)].map((match) => {
    // A full stop belongs to a short word or an initial ("Dr.", "J.R."), not to the end of a sentence.
    const raw = match[0].replace(/[-'’]+$/, '');
    const kept = raw.length > 4 && !/\.\p{L}/u.test(raw) ? raw.replace(/\.+$/, '') : raw;
    const bare = kept.replace(/\.+$/, '').toLowerCase();
    return { text: kept, bare, at: match.index, end: match.index + kept.length };
  });
}

const isInitial = ({ text }: Word): boolean => /^(?:\p{Lu}\.?-?){1,3}$/u.test(text) && !/^\p{Lu}{2,}$/u.test(text);
const hasCapital = ({ text }: Word): boolean => /^\p{Lu}/u.test(text) || /^[a-z]['’]\p{Lu}/u.test(text);
/** Written as a name is: a capital, three letters or more, no plain word. */
const couldBeName = (word: Word): boolean =>
  hasCapital(word) &&
  word.bare.length >= 2 &&
  !titles.has(word.bare) &&
  !isInitial(word) &&
  !isPlainWord(word.text) &&
  !/^\p{Lu}{2,3}$/u.test(word.text);

/** Nothing but spaces, a comma or a sign of a list between the two. */
const follows = (text: string, one: Word, next: Word | undefined, between = /^[ \t\u00a0]+$/): next is Word =>
  next !== undefined && between.test(text.slice(one.end, next.at));

const LOOSE = /^[\s.]*[:,]?[\s]+$/;

/**
 * The first bit of a text that looks like somebody's name, or `null`: a title with a name or an initial, in the languages
 * of the files; a name where names stand ("assisted by …"); two words written like names; an initial with a name. A guess
 * that only the writer can judge.
 */
export function nameIn(text: string): string | null {
  const words = wordsOf(text);
  const bit = (from: Word, to: Word) => text.slice(from.at, to.end).trim();
  for (const [index, word] of words.entries()) {
    const next = words[index + 1];
    const before = words[index - 1];

    if (titles.has(word.bare) && !afterFigure(text, word)) {
      let last: Word | undefined = next;
      let at = index + 1;
      let of = word;
      while (
        last &&
        at - index < MOST_PARTS &&
        follows(text, of, last, LOOSE) &&
        (titles.has(last.bare) || callings.has(last.bare) || AFTER_NAMES.has(last.bare) || last.bare === 'med')
      ) {
        of = last;
        at += 1;
        last = words[at];
      }
      if (last && follows(text, of, last, /^[\s.]*\s$|^\.$/)) {
        if (isInitial(last) || /^\p{L}\.$/u.test(last.text)) return bit(word, last);
        if (particles.has(last.bare) && words[at + 1] && couldBeName(words[at + 1] as Word))
          return bit(word, words[at + 1] as Word);
        // "Mr Brown" is somebody, "Dr blade slipped" is not.
        if (last.bare.length > 1 && (hasCapital(last) || !isPlainWord(last.text))) return bit(word, last);
      }
    }

    if (callings.has(word.bare) && follows(text, word, next, /^[\s.]*\s$/)) {
      const clearly = hasCapital(word) || word.bare.length > 2;
      if (clearly && (couldBeName(next) || (hasCapital(word) && isInitial(next) && !isPlainWord(next.text))))
        return bit(word, next);
      const beyond = words[index + 2];
      if (hasCapital(word) && particles.has(next.bare) && beyond && couldBeName(beyond)) return bit(word, beyond);
    }

    if (
      AFTER_NAMES.has(word.bare) &&
      before &&
      (couldBeName(before) || (hasCapital(before) && !isPlainWord(before.text))) &&
      /^[ -]$/.test(text.slice(before.end, word.at))
    )
      return bit(before, word);
    const joined = /^(.+)-(ji|san|sensei|ssi|sama|bey)$/iu.exec(word.text);
    if (joined?.[1] && !isPlainWord(joined[1])) return word.text;

    if (places.has(word.bare) && follows(text, word, next, LOOSE) && couldBeName(next) && !/^\p{Lu}+$/u.test(next.text))
      return word.bare.length > 2 ? bit(word, next) : next.text;
    if (/^name'?s?$/.test(word.bare) && follows(text, word, next, /^\s*[:=]\s*$/) && !isPlainWord(next.text))
      return bit(word, next);

    if (isInitial(word) && /\.$/.test(word.text) && next) {
      let at = index + 1;
      while (at - index < MOST_PARTS && words[at] && isInitial(words[at] as Word)) at += 1;
      const name = words[at];
      if (name && couldBeName(name) && /^[\s.]*$/.test(text.slice(word.end, name.at).replace(/\p{Lu}/gu, '')))
        return bit(word, name);
    }
    if (index === 0 && /^\p{Ll}\.$/u.test(word.text) && next && !isPlainWord(next.text) && next.bare.length > 3)
      return bit(word, next);

    if (couldBeName(word)) {
      let at = index + 1;
      let of = word;
      while (
        at - index < MOST_PARTS &&
        words[at] &&
        particles.has((words[at] as Word).bare) &&
        follows(text, of, words[at])
      ) {
        of = words[at] as Word;
        at += 1;
      }
      const other = words[at];
      const apart = /^,?[ \t\u00a0]+$/;
      if (other && follows(text, of, other, apart)) {
        if (couldBeName(other)) return bit(word, other);
        if (isInitial(other) && other.bare.length === 1) return bit(word, other);
      }
    }
    // "van den Berg, Pieter": the particles come first.
    if (particles.has(word.bare) && next && (particles.has(next.bare) || couldBeName(next))) {
      const at = particles.has(next.bare) ? index + 2 : index + 1;
      const [name, other] = [words[at], words[at + 1]];
      if (name && other && couldBeName(name) && couldBeName(other) && follows(text, name, other, /^, $/))
        return bit(word, other);
    }
  }
  for (const pattern of OTHER_SCRIPTS) {
    const match = pattern.exec(text);
    if (match) return match[0];
  }
  return null;
}

/** "20 ms" is a length. */
const afterFigure = (text: string, { at, bare }: Word): boolean => bare === 'ms' && /\d\s*$/.test(text.slice(0, at));
