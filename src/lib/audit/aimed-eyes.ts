import type { AimedEyes, FactValue, Procedure } from '../model';
import { asYesNo, type WithFacts } from './eye-coding';
import { factLabel } from './pattern-factors';

const LEVELS = '+';

/**
 * The kind of eye a procedure's fact names at a level (`small`, `yes`, `hard+very-hard`), with its words; `null` where the
 * procedure has no such fact or level, or the fact is a number.
 */
export function aimedEyesOf({ facts }: Pick<Procedure, 'facts'>, factId: string, level: string): AimedEyes | null {
  const fact = facts.find(({ id }) => id === factId);
  if (!fact || fact.kind === 'number') return null;
  if (fact.kind === 'yes-no') {
    const answer = asYesNo(level === 'true' ? true : level === 'false' ? false : level);
    if (answer === null) return null;
    return { fact: factId, level: answer ? 'yes' : 'no', label: factLabel(fact, [String(answer)]) };
  }
  const asked = new Set(level.split(LEVELS));
  const known = (fact.levels ?? []).map(({ id }) => id).filter((id) => asked.has(id));
  if (known.length === 0 || known.length !== asked.size) return null;
  return { fact: factId, level: known.join(LEVELS), label: factLabel(fact, known) };
}

/** Is this one of these eyes? By what was entered alone: a fact the procedure has lost since is still read. */
export const hasEyes = ({ facts }: WithFacts, { fact, level }: AimedEyes): boolean => isLevel(facts[fact], level);

/** Was the fact entered at all? */
export const eyesEntered = ({ facts }: WithFacts, { fact }: AimedEyes): boolean =>
  facts[fact] !== undefined && facts[fact] !== '';

function isLevel(value: FactValue | undefined, level: string): boolean {
  if (value === undefined || value === '') return false;
  const answer = asYesNo(value);
  if (answer !== null && (level === 'yes' || level === 'no')) return answer === (level === 'yes');
  return level.split(LEVELS).includes(String(value));
}

/** The facts to adjust by among these eyes: one level of a fact is the same in all of them. */
export const amongEyes = (procedure: Procedure, eyes: AimedEyes | null | undefined): Procedure =>
  !eyes || eyes.level.includes(LEVELS)
    ? procedure
    : { ...procedure, facts: procedure.facts.filter(({ id }) => id !== eyes.fact) };
