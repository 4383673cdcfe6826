import { useEffect, useState } from "react";
import type { ChancesReport } from "../../../answers/index.ts";
import { platesOf } from "./paintchances.ts";

/** What the simulated days say of each task. */
export interface Known {
  /** By how much it may start later, seconds; none where it may not. */
  readonly slack: ReadonlyMap<string, number>;
  /** Tasks on which a plate stands. */
  readonly plates: ReadonlySet<string>;
}

const UNKNOWN: Known = { slack: new Map(), plates: new Set() };

/** What the simulated days say; what they said last while a day is not counted yet, so that nothing moves for it. */
export function useKnown(chances: ChancesReport | null): Known {
  const [kept, keep] = useState(UNKNOWN);
  useEffect(() => {
    if (!chances) return;
    const slack = chances.tasks.flatMap(({ task, slackS }) =>
      slackS === null ? [] : [[task, slackS] as const],
    );
    keep({ slack: new Map(slack), plates: new Set(platesOf(chances)) });
  }, [chances]);
  return kept;
}
