import type { Procedure } from '../../model';
import { exactly, nameIndex, type NameIndex } from '../labels/name-matcher';
import { named, plainWords } from '../labels/plain-words';

/**
 * Headings of yes/no columns that name one level of a fact, and of facts themselves, as people write them in English,
 * German, French, Spanish, Italian, Portuguese and Hindi in Latin letters (from memory). Facts and levels are those of the
 * shipped procedures; where a procedure has none of that name the words are ignored.
 */
const WRITTEN: Readonly<Record<string, readonly string[]>> = {
  'pupil:small': named(`small pupils, poor dilation, poor dilatation, poorly dilated, poor mydriasis, miosis, miotic,
    miotic pupil, kleine pupille, enge pupille, schlechte mydriasis, petite pupille, pupille etroite, myosis, mauvaise
    dilatation, pupila pequena, pupila estrecha, mala dilatacion, mala midriasis, pupilla piccola, pupilla stretta, scarsa
    midriasi, miosi, ma dilatacao, ma midriase, chhoti putli, choti putli`),
  'pupil:large': named(`well dilated, good dilation, good dilatation, good mydriasis, wide pupil, große pupille, grosse
    pupille, weite pupille, gute mydriasis, grande pupille, pupille large, bonne dilatation, pupila grande, buena
    dilatacion, buena midriasis, pupilla grande, pupilla ampia, buona midriasi, boa dilatacao, boa midriase, badi putli`),
  'pupil:device':
    named(`iris hooks, hooks, pupil ring, pupil expander, pupil device, irishaken, pupillenring, crochets a
    iris, anneau pupillaire, ganchos de iris, retractores de iris, anillo pupilar, uncini iridei, anello pupillare, anel
    pupilar`),
  'nucleus:white':
    named(`white, white cataract, mature cataract, intumescent cataract, white lens, weiße katarakt, weisse
    katarakt, mature katarakt, reife katarakt, weißer star, cataracte blanche, cataracte mure, catarata blanca, catarata
    madura, cataratta bianca, cataratta matura, catarata branca, safed motia, safed motiyabind, pakka motia`),
  'nucleus:very-hard': named(`brown cataract, brunescent cataract, black cataract, braune katarakt, cataracte brune,
    catarata brunescente, cataratta brunescente, cataratta bruna, kala motia, bhura motia`),
  'nucleus:hard':
    named(`dense cataract, hard cataract, harter kern, harte katarakt, dichter kern, noyau dur, nucleo duro,
    sakht motia`),
  'nucleus:soft': named(`soft cataract, weicher kern, weiche katarakt, noyau mou, nucleo blando, nucleo morbido, nucleo
    mole, naram motia`),
  'still:no': named(`restless, restless patient, patient restless, patient moved, patient moving, moving, movement, not
    still, uncooperative, not cooperative, agitated, unruhig, patient unruhig, unruhiger patient, agite, patient agite,
    bouge, non cooperant, inquieto, paciente inquieto, se mueve, no coopera, no colabora, irrequieto, paziente irrequieto,
    agitato, non collaborante, agitado, paciente agitado, nao colabora, bechain, hilta hai`),
  'still:yes': named(`quiet, ruhig, patient ruhig, kooperativ, calme, patient calme, cooperant, tranquilo, paciente
    tranquilo, coopera, colabora, tranquillo, paziente tranquillo, collaborante, calmo, colaborante, shant`),
  'loose-zonules:yes':
    named(`pseudoexfoliation syndrome, pex syndrom, pseudoexfoliationssyndrom, lockere zonula, zonules
    laches, pseudo exfoliation, pseudoexfoliacion, zonula laxa, zonula debil, pseudoesfoliazione, zonula debole,
    pseudoexfoliacao, pseudoesfoliacao, zonula fraca`),
  'loose-zonules:no':
    named(`stable zonules, zonules stable, firm zonules, zonules intact, zonula stabil, stabile zonula,
    zonules stables, zonula estable, zonula stabile, zonula estavel`),
  'floppy-iris:yes': named(`floppy iris, schlaffe iris, iris flasque, iris flacido, iris a bandiera, iris flacida,
    tamsulosine, tamsulosina, dhili iris`),
  'shallow-chamber:yes':
    named(`flache vorderkammer, chambre anterieure etroite, chambre etroite, camara estrecha, camara
    anterior estrecha, camera bassa, camera anteriore bassa, camara rasa`),
  'deep-eye:yes':
    named(`hohe myopie, forte myopie, miopia alta, alta miopia, miopia elevata, vitrektomiert, vitrectomise,
    vitrectomizado, vitrectomizzato`),
  'poor-view:yes': named(`schlechte sicht, hornhautnarbe, mauvaise visibilite, mala visibilidad, scarsa visibilita, ma
    visibilidade`),
  'toric:yes': named(`torisch, torische iol, torique, torica, lente torica`),
};

/** Names of a fact that has levels, in the same languages. */
const OF_LEVELS: Readonly<Record<string, readonly string[]>> = {
  pupil: named(`pupille, pupillenweite, pupila, pupilla, putli`),
  nucleus: named(`kern, linsenkern, kernhärte, kernhaerte, noyau, nucleo`),
};

/** Other names of a fact; of a yes-no fact, under them yes is yes. */
export const moreNames = (factId: string): readonly string[] => [
  ...(WRITTEN[levelId(factId, 'yes')] ?? []),
  ...(OF_LEVELS[factId] ?? []),
];

/** One level of a fact, as the target of a column: `pupil:small`; of a yes-no fact its opposite, `still:no`. */
export const levelId = (factId: string, level: string): string => `${factId}:${level}`;

/** Levels by the headings of yes/no columns that name them. */
export function levelNames({ facts }: Procedure): NameIndex<string> {
  return nameIndex(
    facts.flatMap((fact) => {
      const names = [fact.label, fact.id, ...fact.synonyms];
      if (fact.kind === 'yes-no')
        return [{ value: levelId(fact.id, 'no'), names: [...(WRITTEN[levelId(fact.id, 'no')] ?? [])] }];
      if (fact.kind === 'number') return [];
      return (fact.levels ?? []).map((level) => {
        const words = [level.label, ...(level.synonyms ?? [])].filter((word) => /^\p{L}/u.test(word));
        return {
          value: levelId(fact.id, level.id),
          names: [
            ...(WRITTEN[levelId(fact.id, level.id)] ?? []),
            ...words.flatMap((word) => names.flatMap((name) => [`${word} ${name}`, `${name} ${word}`])),
          ],
        };
      });
    }),
  );
}

/** "(y/n)", "ja/nein", "0/1" after a heading say how it is filled in, not what it is. */
const HOW_FILLED = / (y n|yes no|yes or no|j n|ja nein|o n|oui non|s n|si no|sim nao|haan nahi|0 1|1 0)$/;
const NOT = /^(no|not|without|kein|keine|keinen|ohne|pas de|sans|sin|senza|nessuna?|sem) (.+)$/;

/** The level a heading names, as written: the level itself, or the opposite of a yes-no fact ("no PXF"). */
export function levelWritten(
  heading: string,
  levels: NameIndex<string>,
  facts: NameIndex<string>,
  of: Procedure,
): string[] {
  const words = plainWords(heading).replace(HOW_FILLED, '');
  const found = exactly(words, levels);
  if (found.length > 0) return [...found];
  const without = NOT.exec(words)?.[2];
  if (without === undefined) return [];
  return exactly(without, facts).flatMap((id) =>
    of.facts.some((fact) => fact.id === id && fact.kind === 'yes-no') ? [levelId(id, 'no')] : [],
  );
}

/** The same words taken off a heading that names a fact. */
export const withoutHowFilled = (heading: string): string => {
  const words = plainWords(heading);
  const plain = words.replace(HOW_FILLED, '');
  return plain === words ? heading : plain;
};
