import type { Case, Procedure, Stretch } from '../../model';
import { together, withEvents, withHands, withTimes, type CaseChange } from '../cases/case-change';
import { textOf, type FieldError, type Fields } from '../forms/fields';
import { closedBecause, timeName, timeShown } from './list-times';
import { rowAnswers, rowPrefix } from './list-view';
import { readFigures, readTwoWays, type FiguresAre } from './typed-clock';

export type TimesSent = {
  changed: NonNullable<CaseChange>[];
  errors: FieldError[];
  /** What figures were said to mean; `null` where it was not said. */
  figures: FiguresAre | null;
};

const UNSAID = 'Say once what 123 and 1.23 mean: 1 min 23 s, or seconds.';

/**
 * The grid of a list as sent. A field left as it was shown changes nothing; an emptied one takes its time away. `allMine`
 * and `noEvent` answer for every case of the grid that has no answer yet, and `byHand` says where all these times come
 * from. Sent twice it changes nothing the second time.
 *
 * @param steps ids of the steps that were asked
 */
export function timesFromGrid(
  fields: Fields,
  cases: readonly Case[],
  procedure: Procedure,
  steps: readonly string[],
  hidden: ReadonlySet<string>,
): TimesSent {
  const said = textOf(fields, 'figures');
  const figures = said === 'clock' || said === 'seconds' ? said : null;
  const yes = (name: string) => textOf(fields, name) === 'yes';
  const sent: TimesSent = { changed: [], errors: [], figures };
  const unsaid = new Set<string>();

  for (const stored of cases) {
    const version = textOf(fields, `${rowPrefix(stored.id)}version`);
    if (version === '' || closedBecause(stored, hidden) !== null) continue;
    const errors: FieldError[] = [];
    const stretches = stored.stretches.filter(({ stepId }) => stepId === null || !steps.includes(stepId));
    for (const stepId of steps) {
      const name = timeName(stored.id, stepId);
      const text = textOf(fields, name);
      const before = stored.stretches.find((each) => each.stepId === stepId);
      if (before && text === timeShown(before)) stretches.push(before);
      else if (text !== '') {
        if (figures === null && readTwoWays(text)) unsaid.add(name);
        const read = readFigures(text, figures ?? 'clock');
        if ('seconds' in read) stretches.push(lengthOf(stepId, read.seconds));
        else errors.push({ field: name, message: `${stored.code}, ${labelOf(procedure, stepId)}: ${read.problem}` });
      }
    }
    errors.push(...countedTwice(stored, stretches, procedure));
    const fresh = rowAnswers(stored, procedure).hands.answer === '';
    if (fresh && stretches.length > 0 && !yes('allMine'))
      errors.push({
        field: 'allMine',
        message: `${stored.code}: whose hands is not answered. Say "all mine" here, or answer it on the page of the list first.`,
      });
    sent.errors.push(...errors);
    if (errors.length > 0) continue;

    const one = { ...stored, version: Number(version) || stored.version };
    const change = together(one, [
      (at) => withTimes(at, inOrder(stretches, procedure)),
      (at) => (yes('allMine') && fresh ? withHands(at, { whole: 'mine', steps: {} }, procedure) : null),
      (at) => (yes('noEvent') && at.events === null ? withEvents(at, [], procedure) : null),
      (at) => (stretches.some((each) => !stored.stretches.includes(each)) ? withSource(at, yes('byHand')) : null),
    ]);
    if (change) sent.changed.push(change);
  }
  if (unsaid.size > 0) sent.errors.unshift({ field: 'figures', message: UNSAID });
  return sent;
}

const lengthOf = (stepId: string, seconds: number): Stretch => ({
  stepId,
  start: null,
  end: null,
  seconds,
  kind: 'step',
  reason: null,
});

const labelOf = (procedure: Procedure, stepId: string) =>
  procedure.steps.find(({ id }) => id === stepId)?.label ?? stepId;

function inOrder(stretches: readonly Stretch[], { steps }: Procedure): Stretch[] {
  const place = ({ stepId }: Stretch) => steps.findIndex(({ id }) => id === stepId);
  return [...stretches].sort((a, b) => place(a) - place(b));
}

/** Two steps timed as one and one of them also by itself would count the time twice. */
function countedTwice(one: Case, stretches: readonly Stretch[], procedure: Procedure): FieldError[] {
  const timed = new Set(stretches.map(({ stepId }) => stepId));
  return procedure.steps.flatMap(({ id, label, mergeOf }) => {
    const parts = (mergeOf ?? []).filter((part) => timed.has(part));
    if (!timed.has(id) || parts.length === 0) return [];
    const message = `${one.code}: ${label} is the whole of ${parts.map((part) => labelOf(procedure, part)).join(' and ')}. Fill in one or the other, or the time counts twice.`;
    return [{ field: timeName(one.id, id), message }];
  });
}

/** Where the times come from. A case from a file keeps its file; its history tells. */
function withSource(one: Case, byHand: boolean): CaseChange {
  const kind = byHand ? 'by-hand' : 'typed';
  if (one.source.kind === kind || (one.source.kind !== 'typed' && one.source.kind !== 'by-hand')) return null;
  return { case: { ...one, source: { kind } }, what: byHand ? 'Times noted by hand' : 'Times read off a recording' };
}
