/** Means of some values over lists, for what is constant within a list and for change over time. */
export type ListMeans = {
  /** Mean of the values, one a list that has any. */
  value: Float64Array;
  /** Mean place in time of those cases, counted in cases. */
  place: Float64Array;
  list: Int32Array;
};

/** @param values one a case in order of time; NaN where absent. Lists come out in order of their numbers. */
export function listMeans(values: Float64Array, list: Int32Array, listCount: number): ListMeans {
  const sum = new Float64Array(listCount);
  const places = new Float64Array(listCount);
  const count = new Int32Array(listCount);
  values.forEach((value, place) => {
    if (Number.isNaN(value)) return;
    const number = list[place]!;
    sum[number]! += value;
    places[number]! += place;
    count[number]! += 1;
  });
  const held = Int32Array.from([...count.keys()].filter((number) => count[number]! > 0));
  return {
    value: Float64Array.from(held, (number) => sum[number]! / count[number]!),
    place: Float64Array.from(held, (number) => places[number]! / count[number]!),
    list: held,
  };
}
