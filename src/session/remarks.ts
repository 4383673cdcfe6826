import type { Outcome } from "../kernel/index.ts";
import { type About, type Comment, type Fault, handedTo, type Plan, signedValue } from "../plan/index.ts";
import { utcStamp } from "../words/index.ts";
import type { Core } from "./core.ts";
import type { EditCommands } from "./editing.ts";

type RemarkResult = Outcome<Plan, readonly Fault[]>;

/** What people say of the plan, under the name that was given in this browser; each a step of the history. */
export interface RemarkCommands {
  /** Gives the name under which everything is said and kept from now on; this browser remembers it. */
  setAuthor(name: string): void;
  comment(about: About, text: string): RemarkResult;
  /** Marks a comment as one about which nothing is left to do, or as open again. */
  settle(comment: Comment, settled: boolean): RemarkResult;
  takeCommentOut(comment: Comment): RemarkResult;
  /** Signs a thing as it is now; an older sign-off of it under the same name goes. */
  sign(about: About): RemarkResult;
  withdraw(signoff: string): RemarkResult;
  /** Notes in the plan whose hands it was in last, before it is sent away; without a name nothing is noted. */
  noteHand(): void;
}

export function remarkCommands(core: Core, edits: EditCommands): RemarkCommands {
  const { state, ports } = core;
  const stamp = (): { readonly id: string; readonly by: string; readonly atUtc: string } => ({
    id: ports.newId(),
    by: state.getState().author,
    atUtc: utcStamp(ports.clock.nowMs(), 0),
  });
  const recomment = (name: string, change: (list: readonly Comment[]) => Comment[]): RemarkResult =>
    edits.edit(name, ({ comments }) => ({ comments: change(comments) }));

  return {
    setAuthor(name) {
      const author = name.trim();
      ports.author?.set(author);
      state.setState({ author });
    },
    comment: (about, text) =>
      recomment("Comment", (list) => [...list, { ...stamp(), about, text: text.trim(), settled: false }]),
    settle: ({ id }, settled) =>
      recomment(settled ? "Settle a comment" : "Open a comment again", (list) =>
        list.map((one) => (one.id === id ? { ...one, settled } : one)),
      ),
    takeCommentOut: ({ id }) =>
      recomment("Take a comment out", (list) => list.filter((one) => one.id !== id)),
    sign: (about) =>
      edits.edit("Sign off", (plan) => {
        const made = { ...stamp(), about, value: signedValue(plan, about) ?? "" };
        const others = plan.signoffs.filter(
          (one) => one.by !== made.by || one.about.kind !== about.kind || one.about.id !== about.id,
        );
        return { signoffs: [...others, made] };
      }),
    withdraw: (signoff) =>
      edits.edit("Withdraw a sign-off", ({ signoffs }) => ({
        signoffs: signoffs.filter(({ id }) => id !== signoff),
      })),
    noteHand() {
      const { author, plan } = state.getState();
      if (author === "" || plan.hands.at(-1)?.name === author) return;
      edits.edit(`Saved by ${author}`, ({ hands }) => ({ hands: handedTo(hands, author) }));
    },
  };
}
