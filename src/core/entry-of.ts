/** The entry of a map; one that is not there is made and put into it. */
export function entryOf<K, V extends NonNullable<unknown>>(map: Map<K, V>, key: K, make: () => V): V {
  const known = map.get(key);
  if (known !== undefined) return known;
  const made = make();
  map.set(key, made);
  return made;
}
