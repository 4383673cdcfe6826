import "./setup.css";
import { type KeyboardEvent, useEffect } from "react";
import { useApp, useSession, useView } from "../context.ts";
import { keptIn, keptOn } from "../kept.ts";
import { RuleRemarks } from "../parts/remarks/ruleremarks.tsx";
import { CrewChoice } from "./crewchoice.tsx";
import { PAGES } from "./pages.ts";
import { TableView } from "./tableview.tsx";

/** The plan's tables: everything that a plan holds but the schedule. */
export function Setup() {
  const { view, memory } = useApp();
  const led = useView((state) => state.setupCell);
  const ledTo = led && PAGES.find((one) => one.tables.some((table) => table.id === led.table));
  const pageId = useView((state) => state.setupPage) ?? memory.get("setup-page") ?? "tasks";
  const chosen = ledTo?.id ?? pageId;
  const page = PAGES.find((one) => one.id === chosen) ?? PAGES[0]!;
  // Where somebody was led to stays chosen once he is there.
  useEffect(() => {
    if (ledTo && ledTo.id !== pageId) view.setState({ setupPage: ledTo.id });
  }, [ledTo, pageId, view]);
  // The selected task is where the tasks' table begins.
  const from = useSession((state) => state.selection[0] ?? null);

  const choose = (id: string): void => {
    view.setState({ setupPage: id });
    memory.set("setup-page", id);
  };
  const keys = (event: KeyboardEvent<HTMLElement>): void => {
    const step = { ArrowDown: 1, ArrowRight: 1, ArrowUp: -1, ArrowLeft: -1 }[event.key];
    if (step === undefined) return;
    event.preventDefault();
    const next = PAGES[(PAGES.indexOf(page) + step + PAGES.length) % PAGES.length]!;
    choose(next.id);
    event.currentTarget.querySelector<HTMLElement>(`#setup-tab-${next.id}`)?.focus();
  };

  return (
    <div className="setup">
      <div
        className="setup-pages"
        role="tablist"
        aria-label="Setup"
        aria-orientation="vertical"
        onKeyDown={keys}
      >
        {PAGES.map((one) => (
          <PageTab key={one.id} page={one} chosen={one === page} onChoose={() => choose(one.id)} />
        ))}
      </div>
      <div
        // Each page begins at its top, however far the one before it was read.
        key={page.id}
        className="setup-page"
        role="tabpanel"
        id={`setup-panel-${page.id}`}
        aria-labelledby={`setup-tab-${page.id}`}
      >
        {page.id === "crew" && <CrewChoice />}
        {page.tables.map((table) => (
          <TableView key={table.id} table={table} from={table.id === "tasks" ? from : null} />
        ))}
        {page.id === "rules" && <RuleRemarks />}
      </div>
    </div>
  );
}

function PageTab(props: {
  readonly page: (typeof PAGES)[number];
  readonly chosen: boolean;
  readonly onChoose: () => void;
}) {
  const { page, chosen, onChoose } = props;
  const count = useSession((state) => page.count(state.plan));
  const slot = useSession((state) => state.slot);
  const refused = useView((state) => keptOn(keptIn(state.keptCells, slot), page.tables));
  const toGive = useSession((state) => page.tables.reduce((sum, table) => sum + table.toGive(state.plan), 0));
  return (
    <button
      type="button"
      role="tab"
      id={`setup-tab-${page.id}`}
      aria-selected={chosen}
      aria-controls={chosen ? `setup-panel-${page.id}` : undefined}
      tabIndex={chosen ? 0 : -1}
      onClick={onChoose}
    >
      <span>{page.name}</span>
      {refused > 0 && (
        <span className="setup-kept" title="Cells that the plan does not take.">
          {refused} refused
        </span>
      )}
      {toGive > 0 && (
        <span className="setup-to-give" title="Values that nobody has given yet.">
          {toGive} to give
        </span>
      )}
      {count !== null && <span className="setup-count">{count}</span>}
    </button>
  );
}
