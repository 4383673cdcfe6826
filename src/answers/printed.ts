import type { Instant } from "../kernel/index.ts";
import type { Limit } from "./turnback.ts";
import type { Rest } from "./verdict.ts";

/** When to leave for a task: by a moment that the judge has tested, or as soon as what is done before it ends. */
export type Leave =
  { readonly kind: "by"; readonly atS: Instant } | { readonly kind: "at once"; readonly atS: Instant };

/** The moments of a day that are printed, each as the judge has tested it. */
export interface PrintedDay {
  /** Egress and ingress complete of an EVA that takes place: on whole minutes where the day can be played so. */
  readonly egressS: ReadonlyMap<string, Instant>;
  readonly ingressS: ReadonlyMap<string, Instant>;
  /** Ingress complete of an EVA no later than this, whatever sets it, when everybody leaves as late as printed. */
  readonly limit: ReadonlyMap<string, Limit>;
  /** When a crew member leaves for a task; nothing where no walk leads to it. */
  readonly leaves: ReadonlyMap<string, ReadonlyMap<string, Leave>>;
  /** Pauses that the work limit relies on, when everybody leaves as late as printed. */
  readonly rests: readonly Rest[];
}

/** How far the printed moments are worked out: walks whose last moment of leaving is known. */
export interface PrintingProgress {
  readonly walks: number;
  readonly of: number;
}
