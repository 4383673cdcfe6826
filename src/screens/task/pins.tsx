import type { Placement, Task } from "../../plan/index.ts";
import type { PinPart } from "../../session/index.ts";
import { useApp } from "../context.ts";

const PARTS: readonly {
  readonly part: PinPart;
  readonly words: string;
  readonly key: "startS" | "eva" | "crew";
}[] = [
  { part: "start", words: "Start", key: "startS" },
  { part: "eva", words: "EVA", key: "eva" },
  { part: "crew", words: "Crew", key: "crew" },
];

/** What of the task's placement the packer must keep: a button each, pressed where it is pinned. */
export function Pins({ task, placement }: { readonly task: Task; readonly placement: Placement | null }) {
  const { session } = useApp();
  return (
    <div className="task-pins" role="group" aria-label={`Pins of ${task.name}`}>
      <span className="task-label">Pin</span>
      {PARTS.filter(({ part }) => part === "start" || placement?.eva !== null).map(({ part, words, key }) => {
        const isPinned = task.pin?.[key] !== undefined;
        return (
          <button
            key={part}
            type="button"
            aria-pressed={isPinned}
            aria-disabled={!isPinned && placement === null}
            title={
              !isPinned && placement === null ? "It is on the bench: there is nothing to pin." : undefined
            }
            onClick={() =>
              !isPinned && placement === null
                ? undefined
                : isPinned
                  ? session.unpin([task.id], [part])
                  : session.pin([task.id], [part])
            }
          >
            {words}
          </button>
        );
      })}
    </div>
  );
}
