import type { Procedure } from '../../model';
import { ownColumns, type OwnColumn } from './columns';
import { headingUnit, type HeadingUnit } from './heading-unit';
import { levelNames, levelWritten, moreNames, withoutHowFilled } from './level-names';
import { exactly, nameIndex, nameMatcher, type Match, type NameIndex } from '../labels/name-matcher';
import { oncePer } from '../labels/once-per';
import { headingIsNotKept, headingPointsToAPerson } from '../table/people';
import { plainWords } from '../labels/plain-words';
import { leave, stepColumns, usedIn, type Layout, type StepColumn, type Target } from './targets';

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
const OWN = { stretches: ownIndex('stretches'), cases: ownIndex('cases'), sheet: ownIndex('sheet') };

/** Steps, facts and protected parts of a procedure by all their names. */
const indexOf = oncePer((procedure: Procedure) => ({
  steps: nameIndex(procedure.steps.map(({ id, label, synonyms }) => ({ value: id, names: [id, label, ...synonyms] }))),
  facts: nameIndex(
    procedure.facts.map(({ id, label, synonyms }) => ({
      value: id,
      names: [id, label, ...synonyms, ...moreNames(id)],
    })),
  ),
  levels: levelNames(procedure),
  parts: nameIndex(
    procedure.steps.flatMap((step) =>
      step.protectedParts.map(({ id, label }) => ({ value: id, names: [id, label, `${id} seen`, `${label} seen`] })),
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

  const asWritten = (name: string): Target[] => {
    const what = (kind: 'seen', names: NameIndex<string>) =>
      exactly(name, names).map((id): Target => ({ what: kind, id }));
    const level = levelWritten(name, index.levels, index.facts, procedure);
    return [
      ...exactly(withoutHowFilled(name), index.facts).map((id): Target => ({ what: 'fact', id })),
      ...level.map((id): Target => ({ what: 'level', id })),
      ...what('seen', index.parts),
      ...(layout === 'stretches' ? [] : stepAsWritten(name, index.steps)),
      // "#" has no letters; people mean the number of the case.
      ...(name === '#' ? ['case' as const] : exactly(name, OWN[layout])).map((id): Target => ({ what: 'own', id })),
    ];
  };

  const roughly = (name: string): { targets: Target[]; unclear: Target[] } => {
    const take = (match: Match<string>, make: (id: string) => Target) =>
      match.how === 'none' || match.how === 'unclear' ? [] : match.values.map(make);
    const step = layout !== 'stretches' && !NO_TIME.test(plainWords(name)) ? stepRoughly(name, steps) : null;
    const ofStep = (id: string): Target => ({ what: step?.what ?? 'step-time', id });
    const owned = own(name);
    return {
      targets: [
        ...take(facts(name), (id) => ({ what: 'fact', id })),
        ...take(parts(name), (id) => ({ what: 'seen', id })),
        ...(step ? take(step.match, ofStep) : []),
        ...(owned.how === 'loose' ? owned.values.map((id): Target => ({ what: 'own', id })) : []),
      ],
      unclear: step?.match.how === 'unclear' ? step.match.values.map(ofStep) : [],
    };
  };

  return (heading) => {
    const { name, unit } = headingUnit(heading);
    const exact = asWritten(name);
    if (exact.length > 0) return { targets: exact, how: 'exact', unit };
    if (headingPointsToAPerson(heading)) return { targets: [leave('person')], how: 'none', unit };
    if (headingIsNotKept(heading)) return { targets: [leave('not-kept')], how: 'none', unit };
    const { targets, unclear } = roughly(name);
    if (targets.length > 0) return { targets, how: 'loose', unit };
    if (unclear.length > 0) return { targets: unclear, how: 'unclear', unit };
    return { targets: [leave('unknown')], how: 'none', unit };
  };
}

/** A heading without what it says beside the step, longest such words first. */
function suffixes(name: string): { rest: string; what: StepColumn }[] {
  const words = plainWords(name);
  return SUFFIXES.flatMap(({ what, suffix }) => {
    if (words.endsWith(` ${suffix}`)) return [{ rest: words.slice(0, -suffix.length), what }];
    if (!words.startsWith(`${suffix} `)) return [];
    return [{ rest: words.slice(suffix.length).replace(/^ (for|before|of|in) /, ' '), what }];
  });
}

function stepAsWritten(name: string, steps: NameIndex<string>): Target[] {
  const itself = exactly(name, steps).map((id): Target => ({ what: 'step-time', id }));
  if (itself.length > 0) return itself;
  for (const { rest, what } of suffixes(name)) {
    const ids = exactly(rest, steps);
    if (ids.length > 0) return ids.map((id) => ({ what, id }));
  }
  return [];
}

function stepRoughly(name: string, steps: (text: string) => Match<string>): { match: Match<string>; what: StepColumn } {
  for (const { rest, what } of suffixes(name)) {
    const match = steps(rest);
    if (match.how !== 'none') return { match, what };
  }
  return { match: steps(name), what: 'step-time' };
}
