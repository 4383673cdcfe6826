import type { Usual } from "../../plan/index.ts";
import { useSession } from "../context.ts";
import type { Cell } from "../fields/table.ts";

/** Which of the usual values stand in a row, in that order. */
const THREE = ["low", "nominal", "high"] as const;

/** Low, nominal and high of the cell in hand, each a press away, and where they come from. */
export function UsualValues(props: {
  readonly cell: Cell;
  readonly usual: Usual;
  readonly onTake: (value: number) => void;
}) {
  const { cell, usual, onTake } = props;
  const plan = useSession((state) => state.plan);
  return (
    <div className="setup-usual" role="group" aria-label={`Usual values for ${cell.label}`}>
      {THREE.map((which) => {
        const value = usual[which];
        const means = usual.means?.[which];
        const shown = cell.entry.show(value, plan);
        return (
          <button key={which} type="button" aria-pressed={cell.value === value} onClick={() => onTake(value)}>
            {which} {shown}
            {cell.unit === "" ? "" : ` ${cell.unit}`}
            {means === undefined ? "" : `, ${means}`}
          </button>
        );
      })}
      <p className="note">
        {usual.source} {sideWords(usual)}
      </p>
    </div>
  );
}

/** Which side hurts less when the value is not known. */
function sideWords({ safe }: Usual): string {
  if (safe === "either") return "Not known: neither side is the safe one.";
  return safe === "high"
    ? "Not known: a higher value is the safe side."
    : "Not known: a lower value is the safe side.";
}
