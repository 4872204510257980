import { drawUnits, median, type DrawUnits } from '../statistics';
import type { Procedure, ReferenceCase, ReferenceSet } from '../model';
import { adjustedBy, type Adjusted } from './adjust-for-eye';
import { eyeColumns } from './eye-columns';
import { sortedSample, type SortedSample } from './sorted-sample';
import { auditThresholds } from './thresholds';
import type { StepTable } from './types';

/** One step of the reference set, ready to be resampled; seconds adjusted by the surgeon's own coefficients. */
export type ReferenceStep = {
  n: number;
  readers: number;
  /** Median as recorded, seconds. */
  recorded: number;
  times: SortedSample;
  /** Each time over its reader’s median, so that differences between readers are not taken for spread. */
  within: SortedSample;
};

export type ReferenceSamples = { units: DrawUnits; steps: readonly (ReferenceStep | null)[] };

type Placed = ReferenceCase & { readerKey: string };

/**
 * The reference sets of this procedure, pooled, step by step of the table; `null` where there are fewer than
 * ten times or fewer than three lists and readers to resample.
 */
export function referenceSamples(
  references: readonly ReferenceSet[],
  table: StepTable,
  { eye, fits }: Pick<Adjusted, 'eye' | 'fits'>,
): ReferenceSamples | null {
  const cases = references
    .filter(({ procedureId }) => procedureId === table.procedure.id)
    .flatMap((set) => set.cases.map((each): Placed => ({ ...each, readerKey: `${set.id}/${each.reader}` })));
  if (cases.length === 0) return null;
  const list = referenceLists(cases);
  const units = drawUnits(list, auditThresholds.listsToDraw);
  const coded = eyeColumns(cases, table.procedure, { columns: eye.names, centre: eye.centre });
  // "Not entered" is about the surgeon's own habits of entry: a fact the reference set never had takes nothing out.
  const columns = coded.columns.map((column, index) =>
    eye.names[index]?.endsWith(' not entered') ? column.map(() => 0) : column,
  );
  const steps = table.stepIds.map((stepId, index) => {
    const seconds = Float64Array.from(cases, (each) => referenceSeconds(each, stepId, table.procedure) ?? NaN);
    return referenceStep(seconds, adjustedBy(seconds, { columns }, fits[index] ?? null), cases, list, units);
  });
  return { units, steps };
}

/** A merged step may have been timed by its parts. */
function referenceSeconds({ stepSeconds }: ReferenceCase, stepId: string, { steps }: Procedure): number | null {
  const own = stepSeconds[stepId];
  if (own !== undefined) return own;
  const parts = steps.find(({ id }) => id === stepId)?.mergeOf?.map((id) => stepSeconds[id]) ?? [];
  return parts.length > 0 && parts.every((part) => part !== undefined)
    ? parts.reduce((sum, part) => sum + part, 0)
    : null;
}

function referenceStep(
  recorded: Float64Array,
  adjusted: Float64Array,
  cases: readonly Placed[],
  list: Int32Array,
  { unit }: DrawUnits,
): ReferenceStep | null {
  const present = [...adjusted.keys()].filter((place) => !Number.isNaN(adjusted[place]));
  const byReader = new Map<string, number[]>();
  for (const place of present) {
    const key = cases[place]!.readerKey;
    byReader.set(key, [...(byReader.get(key) ?? []), adjusted[place]!]);
  }
  const lists = new Set(present.map((place) => list[place])).size;
  if (present.length < auditThresholds.referenceCases) return null;
  if (Math.max(lists, byReader.size) < auditThresholds.referenceLists) return null;
  const medianOfReader = new Map([...byReader].map(([key, values]) => [key, median(values)]));
  const times = sortedSample(adjusted, unit);
  const within =
    byReader.size === 1
      ? times
      : sortedSample(
          adjusted.map((value, place) => value / (medianOfReader.get(cases[place]!.readerKey) ?? NaN)),
          unit,
        );
  return {
    n: present.length,
    readers: byReader.size,
    recorded: median(present.map((place) => recorded[place]!)),
    times,
    within,
  };
}

/** Lists within readers; where they are not known, eight neighbours of one reader. */
function referenceLists(cases: readonly Placed[]): Int32Array {
  const numbers = new Map<string, number>();
  const unlisted = new Map<string, number>();
  return Int32Array.from(cases, ({ readerKey, list: own }) => {
    const seen = unlisted.get(readerKey) ?? 0;
    if (own === null) unlisted.set(readerKey, seen + 1);
    const key =
      own === null ? `${readerKey}/block ${Math.floor(seen / auditThresholds.blockSize)}` : `${readerKey}/${own}`;
    if (!numbers.has(key)) numbers.set(key, numbers.size);
    return numbers.get(key)!;
  });
}
