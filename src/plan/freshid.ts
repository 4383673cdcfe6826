const LONGEST = 64;

/** An id that begins like `stem` and is not among `taken`; it is put among them. */
export function freshId(stem: string, taken: Set<string>): string {
  for (let number = 2; ; number += 1) {
    const tail = `-${number}`;
    const id = `${stem.slice(0, LONGEST - tail.length).replace(/-+$/, "")}${tail}`;
    if (taken.has(id)) continue;
    taken.add(id);
    return id;
  }
}
