import { mentorAnchors, type Goal, type MentorForm } from '../../model';
import { personIn } from '../../persons';
import { durationIn } from '../../words';
import { textOf, type FieldError, type Fields } from '../forms/fields';

/** Longer is no line to be laid beside another. */
const MOST = 2000;

export type ReadForm = { form: Omit<MentorForm, 'at'>; errors: FieldError[]; looksLike: string[] };

/**
 * A form of the review: `rating:<checkpoint>` (empty: not rated), `saw`, and `nobody=yes` where text that looks like a
 * person points to none. No time goes in: the two look at what was done.
 */
export function readReviewForm(
  fields: Fields,
  { checkpoints }: Pick<Goal, 'checkpoints'>,
  none: readonly string[] = [],
): ReadForm {
  const errors: FieldError[] = [];
  const ratings = checkpoints.flatMap(({ id }) => {
    const field = `rating:${id}`;
    const text = textOf(fields, field);
    if (text === '') return [];
    const anchor = mentorAnchors.find((each) => each === text);
    if (!anchor) errors.push({ field, message: 'Choose one of the three, or leave it as not rated.' });
    return anchor ? [{ checkpointId: id, anchor }] : [];
  });
  const saw = textOf(fields, 'saw');
  if (errors.length === 0 && ratings.length === 0)
    errors.push({ field: `rating:${checkpoints[0]?.id ?? ''}`, message: 'Rate at least one checkpoint.' });
  if (saw.length > MOST) errors.push({ field: 'saw', message: `Keep this text under ${MOST} letters.` });
  const duration = durationIn(saw);
  if (duration)
    errors.push({ field: 'saw', message: `"${duration}" is a time, and times stay out of a review. Take it out.` });
  const looksLike =
    textOf(fields, 'nobody') === 'yes'
      ? []
      : personIn(saw, 'note', none).map((found) => `"${found.bit}" looks like ${found.looksLike}`);
  return { form: { ratings, saw }, errors, looksLike };
}
