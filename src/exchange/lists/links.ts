import { duration } from "../../kernel/index.ts";
import type { LagLink, Plan } from "../../plan/index.ts";
import { linkWords } from "../../words/index.ts";
import { leftOut, type Made, measured, type Reading, type Row, type RowSaid } from "./reading.ts";
import { precedence, References } from "./references.ts";

/** Rows of a list as links: the second task starts after the first has ended, at least and at most so long after. */
export function linksFrom(plan: Plan, rows: readonly Row[], reading: Reading): Made {
  const references = new References(plan, new Map());
  const known = new Set(plan.tasks.map(({ id }) => id));
  const made = new Map<string, Row>();
  const said: RowSaid[] = [];
  let links: Plan["links"] = plan.links;
  for (const row of rows) {
    const pair = ["first", "second"].map((target) => references.one(row.cells.get(target) ?? ""));
    const [from, to] = pair;
    if (!from || !to || !known.has(from) || !known.has(to)) {
      const word = row.cells.get(from ? "second" : "first") ?? "";
      said.push(leftOut(row, word === "" ? "it does not name two tasks" : `there is no task “${word}”`));
      continue;
    }
    const lost: string[] = [];
    const before = precedence.between(links, from, to);
    const link = bounded(before ?? precedence.make(from, to, "then"), row, reading, lost);
    links = before ? links.map((one) => (one === before ? link : one)) : [...links, link];
    made.set(link.id, row);
    const same = before !== undefined && linkWords(plan, before) === linkWords(plan, link);
    const state = same ? "same" : before ? "changed" : "new";
    said.push({ line: row.line, number: "", name: linkWords(plan, link), state, says: [], lost });
  }
  return {
    questions: [],
    rows: said,
    notes: [],
    parts: { links },
    rowAt(path) {
      const [branch, index] = path.split(".");
      const id = branch === "links" ? links[Number(index)]?.id : undefined;
      return (id !== undefined && made.get(id)) || null;
    },
  };
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
