import { factPhrase } from '../../format';
import type { Case, Procedure } from '../../model';

/** What is entered about the eye of a case, in one line: "nucleus hard, pupil small, not still"; '' where nothing is. */
export const eyeWords = ({ facts }: Pick<Case, 'facts'>, procedure: Pick<Procedure, 'facts'>): string =>
  procedure.facts
    .flatMap((fact) => {
      const value = facts[fact.id];
      return value === undefined ? [] : factPhrase(fact, value);
    })
    .join(', ');
