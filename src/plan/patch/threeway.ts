import { isEqual, isRecord } from "../../kernel/index.ts";
import type { Plan } from "../plan.ts";
import { applied } from "./apply.ts";
import { between } from "./between.ts";
import { fitted } from "./fit.ts";
import { keyed } from "./keyed.ts";
import { type Renumbered, withOwnIds, withOwnNumbers } from "./ownids.ts";
import type { Change } from "./patch.ts";
import { treeOf } from "./tree.ts";

/** A place at which two plans that come from one both say something new. What is `undefined` is not there. */
export interface Clash {
  readonly path: readonly string[];
  readonly base: unknown;
  readonly mine: unknown;
  readonly theirs: unknown;
}

/** Two plans put together. */
export interface Merged {
  /** Mine, with all of theirs that meets nothing of mine; where they clash it is as mine has it. */
  readonly plan: Plan;
  readonly clashes: readonly Clash[];
  /** Theirs, with ids of its own for what both added under one. */
  readonly theirs: Plan;
  /** Tasks of theirs whose number one of mine has. */
  readonly renumbered: readonly Renumbered[];
}

/**
 * What became of `base` in two hands, put together by ids. Nothing of either is lost without a clash that tells of it. The order of
 * lists never clashes: theirs holds as far as it goes.
 */
export function mergePlans(base: Plan, mine: Plan, sent: Plan): Merged {
  const theirs = withOwnIds(base, mine, sent);
  const left: Change[] = [];
  const changes = between(base, theirs);
  const found = fitted(mine, treeOf(changes), left) as Plan;
  // What they did to a thing that I took out is said even where they took something out of it.
  const inGone = changes.filter(({ path }) => valueAt(mine, path.slice(0, -1)) === undefined);
  const paths = lifted(
    [...left, ...inGone].map(({ path }) => path),
    mine,
  );
  const clashes = paths.map((path) => ({
    path,
    base: valueAt(base, path),
    mine: valueAt(mine, path),
    theirs: valueAt(theirs, path),
  }));
  // A part of a thing that clashes as a whole is not taken by itself.
  const plan = clashes.reduce((one, clash) => put(one, clash.path, clash.mine), found);
  return { ...withOwnNumbers(plan, mine, theirs), clashes, theirs };
}

/** The plan with what they have at the place of a clash. */
export function takeTheirs(plan: Plan, clash: Clash): Plan {
  return put(plan, clash.path, clash.theirs);
}

/** What stands at a path; undefined where nothing does. */
export function valueAt(plan: unknown, path: readonly string[]): unknown {
  return path.reduce((at: unknown, step) => {
    if (step.startsWith("#")) return keyed(at)?.get(step.slice(1));
    return isRecord(at) ? at[step] : undefined;
  }, plan);
}

function put(plan: Plan, path: readonly string[], to: unknown): Plan {
  const from = valueAt(plan, path);
  if (isEqual(from, to)) return plan;
  const change: Change = {
    path,
    ...(from === undefined ? {} : { from }),
    ...(to === undefined ? {} : { to }),
  };
  const next = fitted(plan, treeOf([change]), []);
  return applied(plan, treeOf(between(plan, next))) as Plan;
}

/**
 * The places at which a choice makes sense: a placement as a whole, and a thing as a whole where one of the two has none of it. Each
 * once, and none inside another.
 */
function lifted(paths: readonly (readonly string[])[], mine: Plan): readonly (readonly string[])[] {
  const made = paths.map((path) => {
    if (path[0] === "schedule") return path.slice(0, 3);
    const gone = path.findIndex((_, k) => valueAt(mine, path.slice(0, k + 1)) === undefined);
    return gone < 0 ? path : path.slice(0, gone + 1);
  });
  const isWithin = (inner: readonly string[], outer: readonly string[]): boolean =>
    inner.length > outer.length && outer.every((step, k) => inner[k] === step);
  return made.filter(
    (path, k) =>
      made.findIndex((one) => isEqual(one, path)) === k && !made.some((outer) => isWithin(path, outer)),
  );
}
