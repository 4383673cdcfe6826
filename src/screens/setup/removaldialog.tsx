import { useId } from "react";
import type { Removal } from "../../session/index.ts";
import { closeAround, Dialog } from "../parts/dialog.tsx";

/** Says what would go with a row, or why it cannot go, before anything is done. */
export function RemovalDialog(props: {
  readonly name: string;
  readonly removal: Removal;
  readonly onRemove: () => void;
  readonly onInstead: () => void;
  readonly onKeep: () => void;
}) {
  const { name, removal, onRemove, onInstead, onKeep } = props;
  const titleId = useId();
  const disabledReason = removal.hindrances.length > 0;
  return (
    <Dialog className="ask-dialog" aria-labelledby={titleId} onClose={onKeep}>
      <h2 id={titleId}>{disabledReason ? `${name} cannot be removed yet` : `Remove ${name}?`}</h2>
      <p>{disabledReason ? "Others in the plan need it:" : "This goes with it:"}</p>
      <ul>
        {(disabledReason ? removal.hindrances : removal.consequences).map((words) => (
          <li key={words}>{words}</li>
        ))}
      </ul>
      {removal.instead && <p>{removal.instead.says}</p>}
      <div className="removal-choice">
        <button type="button" onClick={closeAround}>
          {disabledReason ? "Close" : "Keep it"}
        </button>
        {removal.instead && (
          <button type="button" onClick={onInstead}>
            {removal.instead.words}
          </button>
        )}
        {!disabledReason && (
          <button type="button" className="danger" onClick={onRemove}>
            Remove all of this
          </button>
        )}
      </div>
    </Dialog>
  );
}
