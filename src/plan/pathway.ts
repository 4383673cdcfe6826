/** Reading and replacing parts of plain data by path: "duration.likelyS", "tasks.3.pin". */

/** What lies at `path`; undefined when there is nothing. */
export function at(data: unknown, path: string): unknown {
  let here = data;
  for (const name of path.split(".")) {
    if (typeof here !== "object" || here === null) return undefined;
    here = (here as Readonly<Record<string, unknown>>)[name];
  }
  return here;
}

/**
 * The data with `value` at `path`, everything beside it the same objects. Missing objects on the way are made; an
 * undefined value takes the name away, and with `prune` also an object that is left empty by that.
 */
export function withAt(data: unknown, path: string, value: unknown, prune = false): unknown {
  const [name = "", ...rest] = path.split(".");
  const below = rest.join(".");
  if (Array.isArray(data)) {
    return data.map((one, index) =>
      index === Number(name) ? (below === "" ? value : withAt(one, below, value, prune)) : (one as unknown),
    );
  }
  const here = (typeof data === "object" && data !== null ? data : {}) as Readonly<Record<string, unknown>>;
  const next = below === "" ? value : withAt(here[name], below, value, prune);
  const emptied = prune && below !== "" && isEmpty(next);
  if (next !== undefined && !emptied) return { ...here, [name]: next };
  return Object.fromEntries(Object.entries(here).filter(([key]) => key !== name));
}

function isEmpty(data: unknown): boolean {
  return typeof data === "object" && data !== null && Object.keys(data).length === 0;
}
