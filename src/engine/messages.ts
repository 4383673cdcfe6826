import type { Plan } from "../plan/index.ts";
import type { CallName, Calls } from "./calls.ts";

/**
 * What goes over the wire between client and worker. The plan is sent once and stands for every call until the next one
 * is sent; messages keep their order.
 */
export type ToWorker =
  | { readonly type: "plan"; readonly plan: Plan }
  | CallMessage
  | { readonly type: "cancel"; readonly id: number };

/** A call on its way: what is given belongs to the name. */
export type CallMessage<Name extends CallName = CallName> = {
  readonly [One in Name]: {
    readonly type: "call";
    readonly id: number;
    readonly name: One;
    readonly given: Calls[One]["given"];
  };
}[Name];

export type FromWorker =
  | { readonly type: "report"; readonly id: number; readonly progress: Calls[CallName]["progress"] }
  | { readonly type: "answer"; readonly id: number; readonly answer: Calls[CallName]["answer"] }
  | { readonly type: "failure"; readonly id: number; readonly message: string };

/** The end of a message channel: a Worker, a worker's own scope, or a MessagePort. */
export interface Port<Out> {
  postMessage(message: Out): void;
  onmessage: ((event: { readonly data: never }) => void) | null;
}
