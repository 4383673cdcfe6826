/**
 * `of`, asked once for each key and remembered as long as the key lives. For pure functions of something that is made once and
 * then passed on; what else `of` is given must follow from the key.
 */
export function remembered<Key extends object, More extends readonly unknown[], Value>(
  of: (key: Key, ...more: More) => Value,
): (key: Key, ...more: More) => Value {
  const known = new WeakMap<Key, { readonly value: Value }>();
  return (key, ...more) => {
    let entry = known.get(key);
    if (!entry) {
      entry = { value: of(key, ...more) };
      known.set(key, entry);
    }
    return entry.value;
  };
}
