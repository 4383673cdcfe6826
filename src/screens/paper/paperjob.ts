import { useMemo, useState } from "react";
import type { PaperJob, PaperKind, PaperSize } from "../services.ts";

const FIRST_WISHES: Omit<PaperJob, "kind" | "size"> = { duplex: false, order: "stack", holes: false };

/** What is to be printed and how, and the ways to choose otherwise. */
export interface ChosenJob {
  readonly job: PaperJob;
  /** The kind that is chosen; undefined where there are none. */
  readonly kind: PaperKind | undefined;
  choose(kind: string): void;
  wish(part: Partial<PaperJob>): void;
}

/** What is to be printed, as it is chosen among `kinds`. */
export function usePaperJob(kinds: readonly PaperKind[]): ChosenJob {
  const [id, choose] = useState(kinds[0]?.id ?? "");
  const [wishes, setWishes] = useState(FIRST_WISHES);
  // What one kind is printed on says nothing of another: a sheet is no cuff page.
  const [sizes, setSizes] = useState<Readonly<Record<string, PaperSize>>>({});
  const kind = kinds.find((one) => one.id === id);
  const size = sizes[id] ?? kind?.sizes[0] ?? "a4";
  const job = useMemo((): PaperJob => ({ ...wishes, kind: id, size }), [wishes, id, size]);
  const wish = ({ size: other, ...rest }: Partial<PaperJob>): void => {
    if (other) setSizes({ ...sizes, [id]: other });
    setWishes({ ...wishes, ...rest });
  };
  return { job, kind, choose, wish };
}
