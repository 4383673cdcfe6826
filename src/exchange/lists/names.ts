const LONGEST_ID = 64;

/** A name with single spaces and in small letters, by which it is found again. */
export function sameName(name: string): string {
  return name.trim().replace(/\s+/g, " ").toLowerCase();
}

/** An id made of a name's letters and digits, not among `taken`; it is put among them. */
export function idFrom(name: string, fallback: string, taken: Set<string>): string {
  const stem = slug(name) || fallback;
  let id = stem;
  for (let number = 2; taken.has(id); number += 1) id = `${stem}-${number}`;
  taken.add(id);
  return id;
}

/** Letters and digits of a name with hyphens between, room left for a number behind; "" where it has none. */
export function slug(name: string): string {
  return name
    .normalize("NFKD")
    .toLowerCase()
    .replace(/\p{M}/gu, "")
    .replace(/[^a-z0-9]+/g, "-")
    .slice(0, LONGEST_ID - 8)
    .replace(/^-+|-+$/g, "");
}
