const isRecord = (value: unknown): value is Readonly<Record<string, unknown>> =>
  typeof value === 'object' && value !== null && !Array.isArray(value);

/**
 * Do two values of the record hold the same? Texts, numbers, lists in their order, and objects whatever the order of
 * their keys; a key that holds `undefined` is one that is not there.
 */
export function same(one: unknown, other: unknown): boolean {
  if (Object.is(one, other)) return true;
  if (Array.isArray(one) && Array.isArray(other))
    return one.length === other.length && one.every((each, index) => same(each, other[index]));
  if (!isRecord(one) || !isRecord(other)) return false;
  const of = (value: Readonly<Record<string, unknown>>, key: string) =>
    Object.hasOwn(value, key) ? value[key] : undefined;
  return [...new Set([...Object.keys(one), ...Object.keys(other)])].every((key) => same(of(one, key), of(other, key)));
}
