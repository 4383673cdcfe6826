import { duration } from "../../kernel/index.ts";
import type { LagLink, Plan } from "../../plan/index.ts";
import { linkWords } from "../../words/index.ts";
import { leftOut, type Made, measured, type Reading, type Row, type RowOutcome } from "./reading.ts";
import { precedence, References } from "./references.ts";

/** Rows of a list as links: the second task starts after the first has ended, at least and at most so long after. */
export function linksFrom(plan: Plan, rows: readonly Row[], reading: Reading): Made {
  const references = new References(plan, new Map());
  const known = new Set(plan.tasks.map(({ id }) => id));
  const made = new Map<string, Row>();
  const outcomes: RowOutcome[] = [];
  let links: Plan["links"] = plan.links;
  for (const row of rows) {
    const from = references.one(row.cells.get("first") ?? "");
    const to = references.one(row.cells.get("second") ?? "");
    if (!from || !to || !known.has(from) || !known.has(to)) {
      const word = row.cells.get(from && known.has(from) ? "second" : "first") ?? "";
      outcomes.push(
        leftOut(row, word === "" ? "it does not name two tasks" : `“${word}”, ${references.whyNone(word)}`),
      );
      continue;
    }
    const lost: string[] = [];
    const before = precedence.between(links, from, to);
    const link = bounded(before ?? precedence.make(from, to, "then"), row, reading, lost);
    links = before ? links.map((one) => (one === before ? link : one)) : [...links, link];
    made.set(link.id, row);
    const name = linkWords(plan, link);
    outcomes.push({ line: row.line, number: "", name, state: stateOf(plan, before, name), says: [], lost });
  }
  return {
    questions: [],
    rows: outcomes,
    notes: [],
    parts: { links },
    rowAt(path) {
      const [branch, index] = path.split(".");
      const id = branch === "links" ? links[Number(index)]?.id : undefined;
      return (id !== undefined && made.get(id)) || null;
    },
  };
}

function stateOf(plan: Plan, before: LagLink | undefined, name: string): RowOutcome["state"] {
  if (!before) return "new";
  return linkWords(plan, before) === name ? "same" : "changed";
}

function bounded(link: LagLink, row: Row, reading: Reading, lost: string[]): LagLink {
  const least = measured(row, "least", reading, lost);
  const greatest = measured(row, "greatest", reading, lost);
  return {
    ...link,
    ...(least === undefined ? {} : { leastS: duration(least) }),
    ...(greatest === undefined ? {} : { greatestS: duration(greatest) }),
  };
}
