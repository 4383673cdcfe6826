import type { HandedDay } from "../answers/index.ts";
import type { Patch, Plan, Schedule } from "../plan/index.ts";
import type { CallName, Calls } from "./calls.ts";

/**
 * What goes over the wire between client and worker. A plan stands for every call until the next one; the next one comes as a patch of
 * the one before, so that all that an edit leaves alone stays the same object on the far side too, with what is known of it. Messages
 * keep their order. A call about another version than the far side holds is `lost`: it comes again behind the whole plan.
 */
export type ToWorker =
  | { readonly type: "plan"; readonly plan: Plan; readonly version: number }
  | { readonly type: "patch"; readonly patch: Patch; readonly from: number; readonly version: number }
  | CallMessage
  | { readonly type: "cancel"; readonly id: number }
  /** What the call has found is enough. */
  | { readonly type: "enough"; readonly id: number }
  /** To a pack that handed its day on: a better one of others; null where there is none. */
  | { readonly type: "met"; readonly id: number; readonly schedule: Schedule | null }
  /** Asks whether the worker still hears. */
  | { readonly type: "ping" };

/** A call on its way: what is given belongs to the name. */
export type CallMessage<Name extends CallName = CallName> = {
  readonly [One in Name]: {
    readonly type: "call";
    readonly id: number;
    /** Of the plan that it is about. */
    readonly version: number;
    readonly name: One;
    readonly given: Calls[One]["given"];
    /** Others do the same, and want to hear how far it has come. */
    readonly meets: boolean;
  };
}[Name];

export type FromWorker =
  /** The worker has come to the call. */
  | { readonly type: "begun"; readonly id: number }
  | { readonly type: "pong" }
  /** It works: sent from inside of work that lets no message in. */
  | { readonly type: "pulse" }
  | { readonly type: "report"; readonly id: number; readonly progress: Calls[CallName]["progress"] }
  /** A pack hands its day on and waits for what the others have. */
  | { readonly type: "meet"; readonly id: number; readonly handed: HandedDay }
  | { readonly type: "answer"; readonly id: number; readonly answer: Calls[CallName]["answer"] }
  | { readonly type: "lost"; readonly id: number }
  | { readonly type: "failure"; readonly id: number; readonly message: string };

/** The end of a message channel: a Worker, a worker's own scope, or a MessagePort. */
export interface Port<Out> {
  postMessage(message: Out): void;
  onmessage: ((event: { readonly data: never }) => void) | null;
}
