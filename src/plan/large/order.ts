import type { LinkInput } from "./parts.ts";

/** How two tasks follow each other: lags in seconds from the end of the first to the start of the second. */
interface Order {
  readonly leastS?: number;
  readonly greatestS?: number;
  readonly needs?: "none" | "from" | "both";
}

/** A link saying that `second` starts after `first` has ended; by default at once or later, and only if it was done. */
export function follows(first: string, second: string, order: Order = {}): LinkInput {
  return {
    id: `${first}-then-${second}`.slice(0, 64).replace(/-$/, ""),
    type: "lag",
    from: { task: first, end: "end" },
    to: { task: second, end: "start" },
    leastS: 0,
    ...order,
  };
}
