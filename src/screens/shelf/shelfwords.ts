import type { Card, KeptState, StateKind } from "../../session/index.ts";
import { counted } from "../../words/index.ts";

/** How much of a plan is on the line. */
export function placedWords({ tasks, placed, picture }: Card): string {
  if (picture === null) return "not looked into yet";
  return tasks === 0 ? "no task yet" : `${placed} of ${counted(tasks, "task")} on the line`;
}

const KINDS: Readonly<Record<StateKind, string>> = {
  opened: "As it was opened",
  hour: "After an hour of work",
  pack: "As it was packed",
  merge: "Before a merge",
  sent: "As it was saved to a file",
  left: "Not saved when another window took over",
  revision: "Revision",
};

/** What a state is called in a list. */
export function stateWords({ kind, name }: Pick<KeptState, "kind" | "name">): string {
  return name === "" ? KINDS[kind] : `${KINDS[kind]} ${name}`;
}
