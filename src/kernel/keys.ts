/** The keys of a record in their order; the record must have no others than its type says. */
export function keysOf<Key extends string>(record: Readonly<Record<Key, unknown>>): Key[] {
  return Object.keys(record) as Key[];
}
