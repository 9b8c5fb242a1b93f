/**
 * `compute` with its latest values kept, since a column of a parts list asks for the same few over and over.
 * What throws is not kept. @param most values are kept; then they are forgotten and gathered anew
 */
export function memoized<K, V extends NonNullable<unknown>>(compute: (key: K) => V, most = 512): (key: K) => V {
  const values = new Map<K, V>();
  return (key) => {
    const known = values.get(key);
    if (known !== undefined) return known;
    const value = compute(key);
    if (values.size >= most) values.clear();
    values.set(key, value);
    return value;
  };
}

/** The entry of a map, weak or not; one that is not there is made and put into it. */
export function entryOf<K, V>(
  map: { get(key: K): V | undefined; set(key: K, value: V): unknown },
  key: K,
  make: () => V,
): V {
  const known = map.get(key);
  if (known !== undefined) return known;
  const made = make();
  map.set(key, made);
  return made;
}
