import { textOf, wholeOf, type FieldError, type Fields } from '../forms/fields';
import { whenFromFields } from '../forms/list-fields';
import { whenWords } from '../forms/when-words';
import { capital, counted } from '../../format';
import type { When } from '../../model';
import { planKey, plannedPositions, type TimingPlan } from './timing-plan';

/** Three a list: enough for a window of twenty in seven lists, and few enough to be kept up. */
export const USUAL_PER_LIST = 3;
/** More operations than anyone's list holds. */
const LONGEST_LIST = 80;

export type TimingPlanView = {
  values: { perList: string; count: string };
  /** The plan in words; `null` while there is none. */
  plan: string | null;
  draw: { title: string; places: readonly number[]; words: string } | null;
};

/** The next list as entered: when it takes place, and how many operations it holds. */
export type NextList = { when: When; key: string; operated: number };

export function timingPlanView(plan: TimingPlan | null, asked: NextList | null): TimingPlanView {
  const some = plan && plan.perList !== 'all' ? plan.perList : null;
  return {
    values: { perList: plan?.perList === 'all' ? 'all' : 'some', count: String(some ?? USUAL_PER_LIST) },
    plan: plan ? (some === null ? 'Every case is to be timed.' : `${some} of every list, drawn by chance.`) : null,
    draw: plan && asked ? drawOf(plan, asked) : null,
  };
}

function drawOf(plan: TimingPlan, { when, operated, key }: NextList) {
  const places = plannedPositions(key, operated, plan);
  const all = places.length === operated;
  return {
    title: `${capital(whenWords(when))}, ${counted(operated, 'operation')}`,
    places,
    words: all ? 'Time every case of this list.' : `Time the cases in these places: ${places.join(', ')}.`,
  };
}

/** The plan as chosen: `perList` (all, or some) and `count`. The seed stays once it is set: a new draw could be picked. */
export function planFromForm(
  fields: Fields,
  before: TimingPlan | null,
  seed: number,
): { plan: TimingPlan; errors: FieldError[] } {
  const kept = before?.seed ?? seed;
  if (textOf(fields, 'perList') === 'all') return { plan: { perList: 'all', seed: kept }, errors: [] };
  const count = wholeOf(fields, 'count', 1);
  if (typeof count === 'number' && count <= LONGEST_LIST) return { plan: { perList: count, seed: kept }, errors: [] };
  return {
    plan: { perList: USUAL_PER_LIST, seed: kept },
    errors: [{ field: 'count', message: `Cases of every list: a whole number from 1 to ${LONGEST_LIST}.` }],
  };
}

const NEXT_PROBLEM =
  'The list: its day (12.3.2026, 12 March 2026) or its number, as it will stand in the record. A month may hold several.';

/** The next list as asked for: `when` (a day or a number) and `operated`. */
export function nextListFromForm(fields: Fields): {
  list: NextList | null;
  errors: FieldError[];
} {
  const { when, errors } = whenFromFields(fields, 'when', NEXT_PROBLEM);
  const key = when && planKey(when);
  const operated = wholeOf(fields, 'operated', 1);
  if (when && !key) errors.push({ field: 'when', message: NEXT_PROBLEM });
  const fits = typeof operated === 'number' && operated <= LONGEST_LIST;
  if (!fits) errors.push({ field: 'operated', message: `Operations: a whole number from 1 to ${LONGEST_LIST}.` });
  return { list: when && key && fits ? { when, key, operated } : null, errors };
}
