import { stillToGive } from "../../plan/index.ts";
import { useApp, useSession, useSessionList, useView } from "../context.ts";
import { keptIn } from "../kept.ts";
import type { SetupCell } from "../viewstate.ts";

/** So many cells are named where the figure is pointed at. */
const NAMED = 5;

/** What of setup is refused or still to be given, and the way to the first of it. Nothing where nothing is. */
export function OpenCells() {
  const { view } = useApp();
  const slot = useSession((state) => state.slot);
  const kept = useView((state) => keptIn(state.keptCells, slot));
  const toGive = useSessionList((state) =>
    stillToGive(state.plan).map(({ list, id, field }) => `${list}/${id}/${field}`),
  );
  if (kept.size + toGive.length === 0) return null;
  const refused = kept.size > 0;
  const go = (): void => {
    const [first = ""] = refused ? kept.keys() : toGive;
    view.setState({ screen: "setup", setupCell: cellOf(first, refused) });
  };
  const faults = [...kept.values()].map(({ label, fault }) => `${label}: ${fault}`);
  const more = faults.length > NAMED ? [`and ${faults.length - NAMED} more`] : [];
  const says = refused ? `refused${toGive.length > 0 ? `, ${toGive.length} to give` : ""}` : "to be given";
  return (
    <div className={`score-figure ${refused ? "breach" : "tight"}`} role="group" aria-label="open in setup">
      <span className="figure">
        <button
          type="button"
          className="from-figure"
          aria-label={`${refused ? kept.size : toGive.length} ${says} in setup. Go there`}
          title={
            refused
              ? [...faults.slice(0, NAMED), ...more].join("\n")
              : "Values that nobody has given: the plan goes on with what a new one begins with."
          }
          onClick={go}
        >
          {refused ? kept.size : toGive.length}
        </button>
      </span>
      <span className="score-name">{says}</span>
    </div>
  );
}

/** The cell that an id names: table, row and, last, the column by its number or its path. */
function cellOf(id: string, byNumber: boolean): SetupCell {
  const [first, last] = [id.indexOf("/"), id.lastIndexOf("/")];
  const field = id.slice(last + 1);
  return {
    table: id.slice(0, first),
    row: id.slice(first + 1, last),
    field: byNumber ? Number(field) : field,
  };
}
