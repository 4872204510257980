import type { ChangeInput } from '../../../src/lib/practice/change';

/**
 * Six steps, 28 baseline cases and a window of 20, lists of four, made by formula so that another program can make the
 * very same numbers: one recorded fact, list effects, an outlier, three missing times; all steps 15 % shorter in the
 * window and the practised one (the third) by a further 25 %.
 */
export function inventedArrays(): ChangeInput {
  const cases = 48;
  const at = Array.from({ length: cases }, (_, i) => i);
  const dense = Float64Array.from(at, (i) => (i % 3 === 0 ? 1 : 0));
  const window = Int32Array.from(at, (i) => (i >= 28 ? 1 : 0));
  const list = Int32Array.from(at, (i) => Math.floor(i / 4));
  const y = Array.from({ length: 6 }, (_, j) =>
    Float64Array.from(
      at,
      (i) =>
        Math.log(40 + 10 * j) +
        0.2 * Math.sin(1.7 * i + 2.3 * j * j) +
        0.1 * Math.cos(0.9 * i) +
        0.16 * Math.sin(2.1 * list[i]! + 0.8 * j) +
        0.25 * dense[i]! +
        (Math.log(0.85) + (j === 2 ? Math.log(0.75) : 0)) * window[i]!,
    ),
  );
  y[0]![5]! += 1.2;
  for (const i of [3, 11, 30]) y[4]![i] = NaN;
  return { y, stepIndex: 2, others: [0, 1, 3, 4, 5], columns: [dense], window, windows: 1, list, listsKnown: true };
}

/** The same with the cases in another order. */
export function reordered(input: ChangeInput, order: readonly number[]): ChangeInput {
  const row = (values: Float64Array) => Float64Array.from(order, (i) => values[i]!);
  return {
    ...input,
    y: input.y.map(row),
    columns: input.columns.map(row),
    window: Int32Array.from(order, (i) => input.window[i]!),
    list: Int32Array.from(order, (i) => input.list[i]!),
  };
}
