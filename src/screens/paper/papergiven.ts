import { useEffect, useMemo, useState } from "react";
import type { ChancesReport, LateReport } from "../../answers/index.ts";
import type { Plan } from "../../plan/index.ts";
import {
  isBenchCurrent,
  chancesAtRest,
  type SessionState,
  MANY_DAYS,
  printedIsStale,
  type PrintedWork,
  lateTableIsStale,
  type LateTableWork,
} from "../../session/index.ts";
import { useApp, useSession } from "../context.ts";
import type { PaperGiven, PaperKind, PaperPort, PaperSite } from "../services.ts";
import { useLateTable } from "../uselatetable.ts";

/** Has what is printed worked out when there is none or the plan has changed; null until it is there. */
export function usePrinted(): PrintedWork | null {
  const { session } = useApp();
  const printed = useSession((state) => (printedIsStale(state) ? null : state.printed));
  const due = printed === null;
  useEffect(() => {
    if (due) void session.askPrinted();
  }, [due, session]);
  return printed;
}

/** The late pages of what is printed, and whether it waits for them. */
export interface LatePages {
  readonly lateTable: LateTableWork | null;
  /** Undefined until they are there. */
  readonly tables: LateReport | undefined;
  /** True while what would be saved now would lack them, and nobody has said to go without. */
  readonly isLacking: boolean;
  goWithout(): void;
}

/** The pages for being late of the open day, worked out while they are `wanted`. */
export function useLatePages(wanted: boolean): LatePages {
  useLateTable(wanted);
  const plan = useSession((state) => state.plan);
  const lateTable = useSession((state) => (lateTableIsStale(state) ? null : state.lateTable));
  const [without, setWithout] = useState<Plan | null>(null);
  const tables = wanted && lateTable?.report?.complete ? lateTable.report : undefined;
  const pending = wanted && tables === undefined && (lateTable === null || lateTable.running);
  return { lateTable, tables, isLacking: pending && without !== plan, goWithout: () => setWithout(plan) };
}

/** All that the pages are made of; null until the moments that are printed are worked out. */
export function usePaperGiven(
  paper: PaperPort,
  kind: PaperKind | undefined,
  printed: PrintedWork | null,
  tables: LateReport | undefined,
): PaperGiven | null {
  const plan = useSession((state) => state.plan);
  const verdict = useSession((state) => state.verdict);
  const chances = useSession(chancesToPrint);
  const reasons = useSession(reasonsToPrint);
  const site = useSite(paper, plan, kind?.ways ?? false);
  const day = printed?.report ?? null;
  return useMemo(
    (): PaperGiven | null =>
      day && {
        ...{ plan, verdict, day, chances, site },
        lateTable: tables,
        reasons: reasons && [...reasons.values()],
      },
    [plan, verdict, day, chances, site, tables, reasons],
  );
}

/** The chances that may be printed: of the open day, counted on many days. */
export function chancesToPrint(state: SessionState): ChancesReport | null {
  const report = chancesAtRest(state);
  return report && report.days >= MANY_DAYS ? report : null;
}

/** Why what is on the bench is there, where that is known of the open day. */
function reasonsToPrint(state: SessionState): SessionState["benchReasons"] | undefined {
  return isBenchCurrent(state) ? state.benchReasons : undefined;
}

/** The ways over the site of the open plan, while they are wanted; undefined until they are there. */
function useSite(paper: PaperPort, plan: Plan, wanted: boolean): PaperSite | undefined {
  const [known, setKnown] = useState<{ readonly plan: Plan; readonly site: PaperSite } | null>(null);
  const due = wanted && known?.plan !== plan;
  useEffect(() => {
    if (!due) return;
    const control = new AbortController();
    paper.site(plan, control.signal).then(
      (site) => setKnown({ plan, site }),
      // Without them the sheet says that they are not known.
      () => undefined,
    );
    return () => control.abort();
  }, [paper, plan, due]);
  return known?.plan === plan ? known.site : undefined;
}
