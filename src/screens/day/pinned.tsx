import { useEffect, useRef } from "react";
import { shownTasks } from "../../session/index.ts";
import { counted } from "../../words/index.ts";
import { useApp, useSession, useView } from "../context.ts";

const WIDE = 280;

/** Beside a drag that a pin has refused: why it was refused, and the way out of it. */
export function PinnedBox() {
  const { session, view } = useApp();
  const refused = useView((state) => state.refused);
  const tasks = useSession(shownTasks);
  const ref = useRef<HTMLDivElement>(null);
  useEffect(() => {
    if (!refused) return;
    const away = (event: Event): void => {
      const outside = event.target instanceof Node && !ref.current?.contains(event.target);
      const escape = event instanceof KeyboardEvent && event.key === "Escape";
      if (escape || (event.type === "pointerdown" && outside)) view.setState({ refused: null });
      if (escape) event.stopPropagation();
    };
    document.addEventListener("pointerdown", away, true);
    document.addEventListener("keydown", away, true);
    return () => {
      document.removeEventListener("pointerdown", away, true);
      document.removeEventListener("keydown", away, true);
    };
  }, [refused, view]);
  if (!refused) return null;
  const first = tasks.get(refused.tasks[0] ?? "");
  const more = refused.tasks.length - 1;
  const close = (): void => view.setState({ refused: null });
  return (
    <div
      ref={ref}
      className="pinned-box panel"
      role="group"
      aria-label="Pinned"
      style={{
        left: Math.max(8, Math.min(refused.x + 12, window.innerWidth - WIDE - 8)),
        top: refused.y + 12,
      }}
    >
      <p>
        <b>Pinned.</b> {first?.name ?? "It"}{" "}
        {more > 0 ? `and ${counted(more, "more", "more")} stay` : "stays"} where{" "}
        {more > 0 ? "they were" : "it was"} pinned.
      </p>
      <div className="pair">
        <button
          type="button"
          className="primary"
          onClick={() => {
            session.unpin(refused.tasks);
            close();
          }}
        >
          Unpin
        </button>
        <button type="button" onClick={close}>
          Leave pinned
        </button>
      </div>
    </div>
  );
}
