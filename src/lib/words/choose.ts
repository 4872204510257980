import type { Audit } from '../audit';
import { counted } from '../format';
import type { StandingView } from '../rules';
import { auditCaveatsWords } from './caveats';
import { heldBackWords } from './hidden-until';
import { othersCases } from './others-cases';
import { viewTitle } from './suggestion-views';

const IN_ORDER = 'Your steps, in the order of the operation.';

/** The title gives the answer; that no step stands out on the view is an answer too. `named`: the step that does. */
export function chooseTitle(audit: Audit, named: string | null, view: StandingView): string {
  if (!audit.enough.enough) return IN_ORDER;
  if (named) return viewTitle(audit, view);
  // Where no step is ranked on the view, none was compared.
  if (audit.steps.every(({ first }) => first[view] === null)) return IN_ORDER;
  return {
    seconds: 'No step clearly holds the most seconds.',
    spread: 'No step clearly varies most.',
    reference: 'No step clearly differs most from the reference set.',
  }[view];
}

export function chooseReading(audit: Audit, view: StandingView): string {
  const range = view === 'spread' ? ' The bracket under the dots holds two thirds of your cases, as recorded.' : '';
  const lists = audit.listCount === null ? '' : ` from ${counted(audit.listCount, 'list')}`;
  return `Latest ${counted(audit.caseIds.length, 'case')}${lists}; dots and ranks are adjusted for the eye. Rows in the order of the operation.${range}`;
}

/** How the numbers of the drawing are made, in this record. `heldBack`: cases of a running window. */
export function chooseMade(audit: Audit, heldBack: number): string[] {
  return [
    ...(audit.listsFrom === 'blocks' ? ['Lists are not known, so eight neighbouring cases are treated as one.'] : []),
    ...(audit.orderKnown ? [] : ['Their order in time is not known.']),
    ...(heldBack > 0 ? [heldBackWords(heldBack, 'the running window')] : []),
    ...auditCaveatsWords(audit.caveats),
  ];
}

export function chooseDoesNotSay({ steps }: Pick<Audit, 'steps'>): string[] {
  const sets = steps.flatMap(({ reference }) => reference ?? []);
  const most = (of: (set: (typeof sets)[number]) => number) => Math.max(...sets.map(of));
  // Whose cases the diamonds and the ratios are of.
  const others = () => othersCases({ n: most(({ n }) => n), readers: most(({ readers }) => readers) });
  return [
    'That anything is wrong, or that a shorter step is a better one.',
    ...(sets.length > 0 ? [`The reference set: ${others()}. Their mix of eyes was not yours.`] : []),
  ];
}
