import { duration, isEqual } from "../../kernel/index.ts";
import type { LagLink, Link, Plan } from "../../plan/index.ts";
import { sameName } from "./names.ts";
import type { Row } from "./reading.ts";
import { isCalled, taskNumbered } from "./tasknames.ts";

/** Tasks that cells name by number or by name: those of the list, then those of the plan. A name that several have names none of them. */
export class References {
  readonly #numbered = new Map<string, string>();
  readonly #called = new Map<string, readonly string[]>();
  readonly #names = new Map<string, string>();

  constructor(
    readonly plan: Plan,
    rows: ReadonlyMap<string, Row>,
  ) {
    for (const { id, name } of plan.tasks) this.#names.set(id, name);
    for (const [id, { cells }] of rows) {
      const { number, name } = Object.fromEntries(cells);
      if (number !== undefined) this.#numbered.set(sameName(number), id);
      if (name === undefined) continue;
      this.#called.set(sameName(name), [...(this.#called.get(sameName(name)) ?? []), id]);
      this.#names.set(id, name);
    }
  }

  nameOf(id: string): string {
    return this.#names.get(id) ?? id;
  }

  /** The task called `word`; null for none. */
  one(word: string): string | null {
    const [id, ...more] = this.#meant(word);
    return id === undefined || more.length > 0 ? null : id;
  }

  /** Why `one` finds none: "nowhere", or several of that name. */
  whyNone(word: string): string {
    const several = this.#meant(word).length;
    return several > 1 ? `which is the name of ${several} tasks: give a number` : "which is nowhere";
  }

  #meant(word: string): readonly string[] {
    const numbered = this.#numbered.get(sameName(word));
    if (numbered !== undefined) return [numbered];
    const called = this.#called.get(sameName(word));
    if (called) return called;
    const task = taskNumbered(this.plan, word);
    return task ? [task.id] : this.plan.tasks.filter((one) => isCalled(one, word)).map(({ id }) => id);
  }

  /** The tasks that a cell names, and a phrase for each word that names none of the `known`. */
  among(
    text: string,
    known: ReadonlySet<string>,
  ): { readonly found: readonly string[]; readonly missing: readonly string[] } {
    const found: string[] = [];
    const missing: string[] = [];
    // A name may hold commas: the whole cell counts first.
    const words = this.#meant(text).length === 0 ? text.split(/\s*(?:[,;\n]|\band\b)\s*/) : [text];
    for (const word of words.filter((one) => one !== "")) {
      const id = this.one(word);
      if (id !== null && known.has(id)) found.push(id);
      else missing.push(`After “${word}”, ${this.whyNone(word)}`);
    }
    return { found: [...new Set(found)], missing: [...new Set(missing)] };
  }
}

/** "One after the other": links from the end of a task to the start of another. */
export const precedence = {
  between(links: readonly Link[], from: string, to: string): LagLink | undefined {
    return links
      .filter((link) => link.type === "lag")
      .find(
        (link) =>
          link.from.task === from &&
          link.from.end === "end" &&
          link.to.task === to &&
          link.to.end === "start",
      );
  },
  /** A new one; `joint` in its id tells who asked for it. */
  make: (from: string, to: string, joint: "before" | "then"): LagLink => ({
    id: `${half(from)}-${joint}-${half(to)}`,
    type: "lag",
    from: { task: from, end: "end" },
    to: { task: to, end: "start" },
    leastS: duration(0),
    needs: "from",
  }),
  /** The links into a task that a list of tasks has made and nobody has changed. */
  ownOf: (links: readonly Link[], to: string): readonly LagLink[] =>
    links.filter(
      (link): link is LagLink =>
        link.type === "lag" &&
        link.to.task === to &&
        isEqual(link, precedence.make(link.from.task, to, "before")),
    ),
};

/** Two of these and a joint make no id that is too long. */
function half(id: string): string {
  return id.slice(0, 27).replace(/-+$/, "");
}
