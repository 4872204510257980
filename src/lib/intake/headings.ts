import type { Procedure } from '../model';
import { ownColumns, type OwnColumn } from './columns';
import { headingUnit, type HeadingUnit } from './heading-unit';
import { nameIndex, nameMatcher, type Match, type NameIndex } from './name-matcher';
import { oncePer } from './once-per';
import { headingIsNotKept, headingPointsToAPerson } from './people';
import { plainWords } from './plain-words';
import { leave, stepColumns, usedIn, type StepColumn, type Target } from './targets';

export type Layout = 'stretches' | 'cases';

/** A heading and what it may hold: several where its place among the columns decides, or where it is unclear. */
export type HeadingMatch = {
  targets: readonly Target[];
  how: 'exact' | 'loose' | 'unclear' | 'none';
  unit: HeadingUnit | null;
};

const ownIndex = (layout: Layout): NameIndex<OwnColumn> =>
  nameIndex(
    (Object.keys(ownColumns) as OwnColumn[])
      .filter((id) => usedIn(layout, id))
      .map((id) => ({ value: id, names: ownColumns[id] })),
  );
const OWN = { stretches: ownIndex('stretches'), cases: ownIndex('cases') };

/** Steps, facts and kept parts of a procedure by all their names. */
const indexOf = oncePer((procedure: Procedure) => ({
  steps: nameIndex(procedure.steps.map(({ id, label, synonyms }) => ({ value: id, names: [id, label, ...synonyms] }))),
  facts: nameIndex(procedure.facts.map(({ id, label, synonyms }) => ({ value: id, names: [id, label, ...synonyms] }))),
  parts: nameIndex(
    procedure.steps.flatMap((step) =>
      step.keptParts.map(({ id, label }) => ({ value: id, names: [id, label, `${id} seen`, `${label} seen`] })),
    ),
  ),
}));

/** What of a step a heading says beside its name: "Rhexis start", "waiting for lens insertion". */
const SUFFIXES = (Object.keys(stepColumns) as StepColumn[])
  .flatMap((what) => stepColumns[what].suffixes.map((suffix) => ({ what, suffix })))
  .sort((a, b) => b.suffix.length - a.suffix.length);

/** Words that make a heading something other than a time, whatever step it names. */
const NO_TIME =
  /\b(size|diameter|width|mm|count|counts|attempts?|tries|comments?|notes?|remarks?|score|grade|type|method|technique|problem|complications?|ok|quality|power|used|difficulty|rating)\b/;

/** Reads headings loosely for one procedure and one layout. */
export function headingMatcher(procedure: Procedure, layout: Layout): (heading: string) => HeadingMatch {
  const index = indexOf(procedure);
  const own = nameMatcher(OWN[layout], { within: false });
  const facts = nameMatcher(index.facts);
  const parts = nameMatcher(index.parts, { within: false });
  const steps = nameMatcher(index.steps);

  const ofStep = (name: string): { match: Match<string>; what: StepColumn } => {
    const words = plainWords(name);
    if (steps(name).how !== 'exact')
      for (const { what, suffix } of SUFFIXES) {
        const rest = words.endsWith(` ${suffix}`)
          ? words.slice(0, -suffix.length)
          : words.startsWith(`${suffix} `)
            ? words.slice(suffix.length)
            : null;
        const match = rest && steps(rest.replace(/^ (for|before|of|in) /, ' '));
        if (match && match.how !== 'none') return { match, what };
      }
    return { match: steps(name), what: 'step-time' };
  };

  return (heading) => {
    const { name, unit } = headingUnit(heading);
    const found = (how: 'exact' | 'loose'): Target[] => {
      const step = layout === 'cases' ? ofStep(name) : null;
      const with_ = <T extends Target>(match: Match<string>, make: (id: string) => T) =>
        match.how === how ? match.values.map(make) : [];
      const timeless = step?.what === 'step-time' && NO_TIME.test(plainWords(name));
      return [
        ...with_(facts(name), (id) => ({ what: 'fact', id })),
        ...with_(parts(name), (id) => ({ what: 'seen', id })),
        ...(step && !timeless ? with_(step.match, (id) => ({ what: step.what, id })) : []),
        ...ownOf(how),
      ];
    };
    const ownOf = (how: 'exact' | 'loose'): Target[] => {
      // "#" has no letters; people mean the number of the case.
      if (name === '#' && how === 'exact') return [{ what: 'own', id: 'case' }];
      const match = own(name);
      return match.how === how ? match.values.map((id) => ({ what: 'own', id })) : [];
    };
    const exact = found('exact');
    if (exact.length > 0) return { targets: exact, how: 'exact', unit };
    if (headingPointsToAPerson(heading)) return { targets: [leave('person')], how: 'none', unit };
    if (headingIsNotKept(heading)) return { targets: [leave('not-kept')], how: 'none', unit };
    const loose = found('loose');
    if (loose.length > 0) return { targets: loose, how: 'loose', unit };
    const step = layout === 'cases' && !NO_TIME.test(plainWords(name)) ? ofStep(name) : null;
    if (step?.match.how === 'unclear')
      return { targets: step.match.values.map((id) => ({ what: step.what, id })), how: 'unclear', unit };
    return { targets: [leave('unknown')], how: 'none', unit };
  };
}
